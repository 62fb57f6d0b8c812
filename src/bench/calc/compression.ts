/**
 * Compression: spread between cylinders, and the test with oil. Limit: the lowest not below 75 percent of the highest (United
 * States Army TM 5-4210-230-14&P-1, addendum 2). A second handbook wants all within 10 psi (TM 10-3930-618-20, 2-12).
 */

/** Lowest over highest at which the cylinders still count as even. */
export const leastShare = 0.75;
/** The stricter handbook's limit between cylinders: 10 psi in kPa. */
export const strictSpreadKpa = 68.94757;
/** Rise with oil that counts as clear: a fifth. Common practice; the handbook says "clear rise" without a number. */
export const clearRise = 0.2;

export interface Spread {
  readonly lowestKpa: number;
  readonly highestKpa: number;
  /** Lowest / highest, 0 to 1. */
  readonly share: number;
  /** Each cylinder as a part of the highest, in the order given; null where it was not read. */
  readonly shares: readonly (number | null)[];
  /** Places (0 = cylinder 1) below the limit. */
  readonly low: readonly number[];
  readonly withinStrictSpread: boolean;
}

/** Spread of readings in kPa, null where not read. Null with fewer than two readings, or when none is above zero. */
export function spreadOf(readingsKpa: readonly (number | null)[]): Spread | null {
  const read = readingsKpa.filter((value) => value !== null);
  const highestKpa = Math.max(...read);
  if (read.length < 2 || !(highestKpa > 0) || read.some((value) => value < 0)) return null;
  const lowestKpa = Math.min(...read);
  const shares = readingsKpa.map((value) => (value === null ? null : value / highestKpa));
  return {
    lowestKpa,
    highestKpa,
    share: lowestKpa / highestKpa,
    shares,
    low: shares.flatMap((share, index) => (share !== null && share < leastShare ? [index] : [])),
    withinStrictSpread: highestKpa - lowestKpa <= strictSpreadKpa,
  };
}

export type CompressionReading = 'even' | 'one-low' | 'neighbours-low' | 'uneven';

/**
 * What the spread looks like, in the outcomes of the compression test. Neighbours are cylinders whose numbers are
 * neighbours in `banks`. A spread cannot show that all are low alike: only the vehicle's own figure can.
 */
export function readSpread(spread: Spread, banks: readonly (readonly number[])[]): CompressionReading {
  const low = spread.low.map((place) => place + 1);
  if (low.length === 0) return 'even';
  if (low.length === 1) return 'one-low';
  if (low.length > 2) return 'uneven';
  const side = banks.some(
    (bank) => Math.abs(bank.indexOf(low[0]!) - bank.indexOf(low[1]!)) === 1 && bank.includes(low[0]!) && bank.includes(low[1]!),
  );
  return side ? 'neighbours-low' : 'uneven';
}

export type WetReading = 'rises' | 'stays';

/** Rise with oil as a part of the dry reading; null when either is missing or the dry reading is not above zero. */
export const riseWithOil = (dryKpa: number | null, wetKpa: number | null): number | null =>
  dryKpa === null || wetKpa === null || !(dryKpa > 0) ? null : (wetKpa - dryKpa) / dryKpa;

/** A clear rise is rings or bore; none is a valve or the gasket. */
export const readRise = (rise: number): WetReading => (rise >= clearRise ? 'rises' : 'stays');
