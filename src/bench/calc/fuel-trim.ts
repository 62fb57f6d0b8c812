/**
 * Fuel trim read at two speeds, bank by bank. Total trim = short term + long term of the same bank and moment (common practice,
 * no source). How well a pattern of trim fits is the engine's own density, so that this page and a job never disagree.
 */

import { trimDensity, trimPoints } from '../../engine/belief/trims.ts';
import type { TrimReadings } from '../../engine/case.ts';
import type { TrimSignature } from '../../engine/knowledge.ts';

export interface SpeedReading {
  /** Short-term trim, percent; null when it was not read. */
  readonly shortPercent: number | null;
  /** Long-term trim, percent; null when it was not read. */
  readonly longPercent: number | null;
}

export interface BankReading {
  readonly idle: SpeedReading;
  /** At 2,500 rpm. */
  readonly raised: SpeedReading;
}

export interface SignatureFit {
  readonly signature: TrimSignature;
  /** Share among all signatures when each is taken as equally likely before the reading. Sums to 1. */
  readonly share: number;
}

/** Short + long, percent. A scan tool that shows only one of the two still gives a total; null when neither was read. */
export const totalTrim = ({ shortPercent, longPercent }: SpeedReading): number | null =>
  shortPercent === null && longPercent === null ? null : (shortPercent ?? 0) + (longPercent ?? 0);

/** Totals in the form that a case takes. Readings left out stay out. */
export function readingsOf(bank1: BankReading, bank2: BankReading): TrimReadings {
  const entries = [
    ['idleBank1Percent', totalTrim(bank1.idle)],
    ['at2500Bank1Percent', totalTrim(bank1.raised)],
    ['idleBank2Percent', totalTrim(bank2.idle)],
    ['at2500Bank2Percent', totalTrim(bank2.raised)],
  ] as const;
  return Object.fromEntries(entries.filter(([, total]) => total !== null));
}

/** Signatures by how well they fit the readings of one bank, best first; empty when nothing was read of it. */
export function signatureFits(bank: 1 | 2, readings: TrimReadings, signatures: readonly TrimSignature[]): readonly SignatureFit[] {
  const points = trimPoints(readings, undefined).filter((point) => point.bank === bank);
  if (points.length === 0) return [];
  const densities = signatures.map((signature) => trimDensity(points, signature));
  const sum = densities.reduce((total, density) => total + density, 0);
  return signatures
    .map((signature, index) => ({ signature, share: densities[index]! / sum }))
    .sort((a, b) => b.share - a.share || (a.signature.id < b.signature.id ? -1 : 1));
}

export type TrimChange = 'falls' | 'holds' | 'climbs';
/** Percent by which the total must move between the speeds to count as moved. Common practice, no source. */
export const changeThatCounts = 5;
/** Total trim beyond which a bank is off. Common practice, no source: service information names the true limit. */
export const usualLimitPercent = 10;

/** How the total moves from idle to 2,500 rpm. */
export function changeOf(idlePercent: number, raisedPercent: number): TrimChange {
  const change = raisedPercent - idlePercent;
  return change < -changeThatCounts ? 'falls' : change >= changeThatCounts ? 'climbs' : 'holds';
}

export type BanksOff = 'none' | 'one' | 'both' | 'opposite';

/** Which banks are off, and whether to the same side; null when only one bank was read. */
export function banksOff(readings: TrimReadings): BanksOff | null {
  const worst = (values: readonly (number | undefined)[]) =>
    values.reduce<number | null>(
      (most, value) => (value !== undefined && (most === null || Math.abs(value) > Math.abs(most)) ? value : most),
      null,
    );
  const first = worst([readings.idleBank1Percent, readings.at2500Bank1Percent]);
  const second = worst([readings.idleBank2Percent, readings.at2500Bank2Percent]);
  if (first === null || second === null) return null;
  const off = [first, second].filter((value) => Math.abs(value) > usualLimitPercent);
  if (off.length < 2) return off.length === 0 ? 'none' : 'one';
  return first * second > 0 ? 'both' : 'opposite';
}
