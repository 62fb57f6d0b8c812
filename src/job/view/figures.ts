/** Numbers as people read them, rounded as on every other page of the site: a test holds the two together. */

/** "34 %", "< 1 %", "> 99 %", kept on one line; 0 and 100 only when they are exact. */
export function percent(chance: number): string {
  if (chance > 0 && chance < 0.005) return '<\u00a01\u00a0%';
  if (chance < 1 && chance > 0.995) return '>\u00a099\u00a0%';
  return `${Math.round(100 * chance)}\u00a0%`;
}

/** Whole dollars, thousands set off; cents only under ten. */
export function money(dollars: number): string {
  if (dollars === 0) return '$0';
  if (dollars < 10 && !Number.isInteger(dollars)) return `$${dollars.toFixed(2)}`;
  return `$${String(Math.round(dollars)).replace(/\B(?=(\d{3})+$)/g, ',')}`;
}

/** "25 min", "1 h 10 min". */
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 90) return `${whole} min`;
  const rest = whole % 60;
  return `${Math.floor(whole / 60)} h${rest ? ` ${rest} min` : ''}`;
}

/** A number that carries at most `digits` decimals and no trailing zeros. */
export const plain = (value: number, digits = 2): string => String(Number(value.toFixed(digits)));

/** Steps of 1, 2 or 5 times a power of ten, about `most` of them up to `end`. */
export function ticksTo(end: number, most: number): readonly number[] {
  const rough = end / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5].map((factor) => factor * power).find((candidate) => candidate >= rough - 1e-9) ?? 10 * power;
  return Array.from({ length: Math.floor(end / step + 1e-9) + 1 }, (_, index) => index * step);
}
