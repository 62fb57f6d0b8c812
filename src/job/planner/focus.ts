/**
 * A smaller problem whose every policy is a policy of the whole one: the most promising checks with what must come before
 * them, and the causes that carry chance. Its costs hold; a lower bound found on it does not hold for the whole.
 */
import type { Formulation } from '../../engine/formulate.ts';
import { mutualInformation } from './information.ts';

export interface FocusSize {
  readonly checks: number;
  /** Causes below this chance join "none of these". */
  readonly leastProbability: number;
}

/** The same formulation when it is small enough already. */
export function focused(formulation: Formulation, size: FocusSize): Formulation {
  const { model, hypotheses } = formulation;
  const kept = hypotheses.flatMap(({ cause, probability }, index) =>
    cause === null || probability >= size.leastProbability ? [index] : [],
  );
  if (model.checks.length <= size.checks && kept.length === hypotheses.length) return formulation;

  const chosen = new Set<number>();
  const add = (check: number) => {
    if (chosen.has(check)) return;
    chosen.add(check);
    model.checks[check]!.after.forEach(add);
  };
  for (const check of byInformation(formulation)) {
    if (chosen.size >= size.checks) break;
    add(check);
  }
  // What was done already counts for precedence.
  for (const check of model.checksDone) chosen.add(check);
  const checks = [...chosen].sort((a, b) => a - b);
  const checkAt = new Map(checks.map((check, index) => [check, index]));
  const repairs = model.repairs.flatMap((repair, index) => (kept.some((h) => repair.fixes[h]! > 0) ? [index] : []));
  const repairAt = new Map(repairs.map((repair, index) => [repair, index]));
  const pick = <T>(list: readonly T[]): readonly T[] => kept.map((index) => list[index]!);
  const within = (list: readonly number[], places: ReadonlyMap<number, number>) => list.flatMap((index) => places.get(index) ?? []);

  const probabilities = pick(model.prior);
  const rest = 1 - probabilities.reduce((total, probability) => total + probability, 0);
  const none = kept.findIndex((index) => hypotheses[index]!.cause === null);
  const prior = probabilities.map((probability, index) => (index === none ? probability + Math.max(0, rest) : probability));
  return {
    ...formulation,
    hypotheses: pick(hypotheses).map((hypothesis, index) => ({ ...hypothesis, probability: prior[index]! })),
    checkIds: checks.map((check) => formulation.checkIds[check]!),
    repairIds: repairs.map((repair) => formulation.repairIds[repair]!),
    model: {
      ...model,
      prior,
      checks: checks.map((check) => {
        const action = model.checks[check]!;
        return { ...action, after: within(action.after, checkAt), likelihood: pick(action.likelihood) };
      }),
      repairs: repairs.map((repair) => {
        const action = model.repairs[repair]!;
        return { ...action, after: within(action.after, checkAt), spoils: within(action.spoils, checkAt), fixes: pick(action.fixes) };
      }),
      checksDone: within(model.checksDone, checkAt),
      repairsTried: within(model.repairsTried, repairAt),
    },
  };
}

/** Open checks, those first that say most about the cause for what they cost: a cheap measure that leaves the ranking to the planner. */
function byInformation({ model }: Formulation): readonly number[] {
  const done = new Set(model.checksDone);
  const worth = model.checks.map((check) => {
    const setUps = check.setUps.reduce((total, setUp) => total + (model.setUpsDone.includes(setUp) ? 0 : model.setUpCosts[setUp]!), 0);
    return mutualInformation(check.likelihood, model.prior) / (1 + check.cost + setUps);
  });
  return model.checks
    .map((_, index) => index)
    .filter((index) => !done.has(index) || model.checks[index]!.repeats)
    .sort((a, b) => worth[b]! - worth[a]! || a - b);
}
