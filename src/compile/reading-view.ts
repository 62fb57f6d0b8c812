/** The number that a check reads and what its outcomes say, with limits in words. */
import type { CheckFile } from '../model/schema/index.ts';
import { plain } from './figures.ts';

const unitNames: Readonly<Record<string, string>> = {
  degC: '°C',
  percent: '%',
  ohm: 'Ω',
  kohm: 'kΩ',
  'N.m': 'N·m',
  ratio: '',
  count: '',
  degrees: '°',
};

/** A unit as it is printed. */
export const unitName = (unit: string): string => unitNames[unit] ?? unit;

export interface Limits {
  readonly above?: number | undefined;
  readonly below?: number | undefined;
}

/** "below 57 kPa", "57 kPa to under 71 kPa"; the lower end belongs to the range, the upper does not. */
export function limitsText(limits: Limits, unit: string): string {
  const name = unitName(unit);
  const figure = (value: number) => `${value < 0 ? '−' : ''}${plain(Math.abs(value), 3)}${name ? ` ${name}` : ''}`;
  if (limits.above !== undefined && limits.below !== undefined) return `${figure(limits.above)} to under ${figure(limits.below)}`;
  if (limits.above !== undefined) return `${figure(limits.above)} or more`;
  return limits.below === undefined ? '' : `under ${figure(limits.below)}`;
}

export interface OutcomeView {
  readonly id: string;
  readonly title: string;
  readonly means: string;
  /** Limits of the reading; empty when the check reads no number. */
  readonly limits: string;
}

export const outcomeViews = (file: CheckFile): readonly OutcomeView[] =>
  file.outcomes.map((outcome) => ({
    id: outcome.id,
    title: outcome.title,
    means: outcome.means,
    limits: outcome.when && file.reading ? limitsText(outcome.when, file.reading.unit) : '',
  }));
