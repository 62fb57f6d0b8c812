/** Numbers as people type and read them. */

/** A typed number: comma or point, a sign of any kind; null when it is none, or absurdly large. */
export function typedNumber(text: string): number | null {
  const plain = text.trim().replace(/^[−–]/, '-').replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain)) return null;
  const value = Number(plain);
  return Math.abs(value) <= 1e9 ? value : null;
}

/** `digits` significant figures, no exponent and no trailing zeros; a true minus sign. 0.000123 -> "0.000123", 1234.5 -> "1235". */
export function figures(value: number, digits = 4): string {
  if (!Number.isFinite(value)) return '–';
  if (value === 0) return '0';
  const places = Math.max(0, Math.min(12, digits - 1 - Math.floor(Math.log10(Math.abs(value)))));
  const text = value.toFixed(places);
  return minus(places > 0 ? text.replace(/\.?0+$/, '') : text);
}

/** At most `places` decimals. */
export const decimals = (value: number, places = 1): string =>
  Number.isFinite(value) ? minus(String(Number(value.toFixed(places)))) : '–';

/** The same with a plus sign in front of what is above zero: fuel trims are read so. */
export const signed = (value: number, places = 1): string => (Number(value.toFixed(places)) > 0 ? '+' : '') + decimals(value, places);

/** A share as whole percent; never 0 or 100 unless it is exactly that. */
export function percent(share: number): string {
  if (share > 0 && share < 0.005) return 'under 1 %';
  if (share < 1 && share > 0.995) return 'over 99 %';
  return `${Math.round(100 * share)} %`;
}

const minus = (text: string): string => (Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−'));
