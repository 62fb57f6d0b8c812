/** Chances as written in check files -> complete rows of numbers. */
import { type ProbabilityInput, verbalScale } from './schema/scalars.ts';

export const certaintyFloor = 0.005;

/** A word or number as a number, not clamped. */
export const asNumber = (chance: ProbabilityInput): number => (typeof chance === 'number' ? chance : verbalScale[chance]);

/** A probability that will multiply a belief: never exactly 0 or 1. */
export const clamp = (chance: number): number => Math.min(1 - certaintyFloor, Math.max(certaintyFloor, chance));

const sumTolerance = 0.0051;

/** What is wrong with a row, as a sentence, or null. */
export function rowFault(
  outcomes: readonly string[],
  row: Readonly<Record<string, ProbabilityInput>>,
  base: readonly number[] | null,
): string | null {
  const named = outcomes.filter((outcome) => Object.hasOwn(row, outcome));
  const sum = named.reduce((total, outcome) => total + asNumber(row[outcome]!), 0);
  const missing = outcomes.length - named.length;
  if (named.length === 0) return 'The row names no outcome.';
  if (missing === 0 && Math.abs(sum - 1) > sumTolerance)
    return `The chances of all ${outcomes.length} outcomes sum to ${Number(sum.toFixed(4))}, not to 1.`;
  if (sum > 1 + sumTolerance) return `The named chances sum to ${Number(sum.toFixed(4))}, more than 1.`;
  if (base === null && missing > 1) return `"otherwise" leaves ${missing} outcomes open; only one can take the rest.`;
  return null;
}

/**
 * A row over all outcomes, in their order, clamped to [0.005, 0.995] and normalised to sum 1. Outcomes that the row leaves
 * out share what is left in the proportions of `base` (the completed `otherwise`), or take all of it when there is one.
 */
export function completeRow(
  outcomes: readonly string[],
  row: Readonly<Record<string, ProbabilityInput>>,
  base: readonly number[] | null,
): number[] {
  const named = outcomes.map((outcome) => (Object.hasOwn(row, outcome) ? asNumber(row[outcome]!) : null));
  const rest = Math.max(0, 1 - named.reduce<number>((total, chance) => total + (chance ?? 0), 0));
  const openWeight = named.reduce<number>((total, chance, index) => total + (chance === null ? (base?.[index] ?? 1) : 0), 0);
  const full = named.map((chance, index) => clamp(chance ?? (rest * (base?.[index] ?? 1)) / openWeight));
  const sum = full.reduce((total, chance) => total + chance, 0);
  return full.map((chance) => chance / sum);
}
