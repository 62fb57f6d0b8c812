/** Why a step stands where it stands, in plain words, from the planner's figures. */
import type { StepReason } from '../engine/plan/index.ts';
import { money, percent } from './figures.ts';

/** Sentences about one step; `next` is the title of the step after it, null at the end. */
export function reasonText(reason: StepReason, next: string | null): readonly string[] {
  const { step, leaves, valueOfInformation, against } = reason;
  if (step.kind === 'hand-over') return ['From here on, handing over costs less than any further check or repair is expected to.'];
  const does =
    step.kind === 'check'
      ? `In ${percent(leaves)} of the cars that get here it finds something.`
      : `In ${percent(leaves)} of the cars that get here the fault is gone after it.`;
  const worth =
    valueOfInformation !== null && valueOfInformation > step.cost
      ? [`Knowing the result saves ${money(valueOfInformation)} on average, and getting it costs ${money(step.cost)}, time included.`]
      : [];
  return [does, ...worth, ...exchangeText(reason, next, against)];
}

function exchangeText({ step }: StepReason, next: string | null, against: StepReason['against']): readonly string[] {
  if (!against || !next) return [];
  const { breakEvenPrice, breakEvenChance, saves } = against;
  if (saves < 0) return [];
  const limits = [
    ...(breakEvenPrice !== null && breakEvenPrice > step.cost
      ? [`while it costs less than ${money(breakEvenPrice)} (now ${money(step.cost)})`]
      : []),
    ...(breakEvenChance !== null && breakEvenChance > 0 ? [`while its chance is above ${percent(breakEvenChance)}`] : []),
  ];
  return limits.length > 0 ? [`It stays ahead of “${next}” ${limits.join(', or ')}.`] : [];
}
