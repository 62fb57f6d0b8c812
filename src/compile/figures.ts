/** Numbers as people read them. One place, so that all pages round alike. */

/** "34 %", "< 1 %", "> 99 %", kept on one line; 0 and 100 only when they are exact. */
export function percent(chance: number): string {
  if (chance > 0 && chance < 0.005) return '<\u00a01\u00a0%';
  if (chance < 1 && chance > 0.995) return '>\u00a099\u00a0%';
  return `${Math.round(100 * chance)}\u00a0%`;
}

/** Whole dollars; cents only under ten. */
export function money(dollars: number): string {
  if (dollars === 0) return '$0';
  if (dollars < 10 && !Number.isInteger(dollars)) return `$${dollars.toFixed(2)}`;
  // Thousands by hand: the locale of the machine must not show.
  return `$${String(Math.round(dollars)).replace(/\B(?=(\d{3})+$)/g, ',')}`;
}

/** "$6 to $12", or one figure when both ends are the same. */
export const moneyRange = (range: { readonly low: number; readonly high: number }): string =>
  range.low === range.high ? money(range.low) : `${money(range.low)} to ${money(range.high)}`;

/** "25 min", "1 h 10 min". */
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 90) return `${whole} min`;
  const rest = whole % 60;
  return `${Math.floor(whole / 60)} h${rest ? ` ${rest} min` : ''}`;
}

/** "1 cause", "3 causes". */
export const count = (number: number, noun: string, plural = `${noun}s`): string => `${number} ${number === 1 ? noun : plural}`;

/** A number that carries at most `digits` decimals and no trailing zeros. */
export const plain = (value: number, digits = 2): string => String(Number(value.toFixed(digits)));
