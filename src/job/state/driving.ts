/** May I drive? The strictest of what the symptoms and the codes say. */
import type { Driving, JobWords } from '../card-types.ts';
import type { Inputs } from './job.ts';

export const drivingOrder: readonly Driving[] = ['stop', 'home-only', 'gently', 'as-usual'];

export interface DrivingReason {
  readonly level: Driving;
  readonly because: string;
  readonly why: string;
}

export interface DrivingVerdict {
  /** Null: nothing is known yet. */
  readonly level: Driving | null;
  /** Strictest first; equal reasons once. */
  readonly reasons: readonly DrivingReason[];
}

export function drivingVerdict(inputs: Inputs, words: JobWords): DrivingVerdict {
  const symptoms = words.symptoms
    .filter(({ id }) => inputs.symptoms[id] === 'present')
    .map(({ title, driving, drivingWhy }) => ({ level: driving, because: title, why: drivingWhy }));
  const groups = [...new Set(inputs.codes.flatMap((code) => words.codes[code] ?? []))];
  const codes = groups.map((group) => {
    const { driving, drivingWhy } = words.codeGroups[group]!;
    return { level: driving, because: inputs.codes.filter((code) => words.codes[code] === group).join(', '), why: drivingWhy };
  });
  const rank = ({ level }: DrivingReason) => drivingOrder.indexOf(level);
  const reasons = [...symptoms, ...codes].sort((a, b) => rank(a) - rank(b));
  return {
    level: reasons[0]?.level ?? null,
    reasons: reasons.filter(({ why }, index) => reasons.findIndex((other) => other.why === why) === index),
  };
}
