/** Why the step comes now, in plain words, from the planner's figures. */
import type { StepReason } from '../../engine/plan/index.ts';
import { money, percent } from './figures.ts';

/** `next` is the title of the step after it; null at the end. */
export function reasonText({ step, leaves, valueOfInformation, against }: StepReason, next: string | null): readonly string[] {
  if (step.kind === 'hand-over') return ['Any further check or repair is expected to cost more than it saves.'];
  const sentences = [
    step.kind === 'check'
      ? `It finds something ${percent(leaves)} of the time.`
      : `The fault is gone after it ${percent(leaves)} of the time.`,
  ];
  if (valueOfInformation !== null && valueOfInformation > step.cost)
    sentences.push(`Knowing the result saves ${money(valueOfInformation)} on average; it costs ${money(step.cost)}, your time included.`);
  const price = against?.breakEvenPrice ?? null;
  if (against && against.saves >= 0 && next !== null && price !== null && price > step.cost)
    sentences.push(`It comes before “${next}” as long as it costs less than ${money(price)}.`);
  return sentences;
}
