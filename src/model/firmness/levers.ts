/** Which of the stated chances decide between two beginnings of an order, and how far each may move before they change places. */
import type { Hypothesis } from '../../engine/belief/index.ts';
import type { CheckFacts } from '../../engine/knowledge.ts';
import type { TroubleshootingModel } from '../../engine/plan/index.ts';
import type { Strengths } from '../../engine/plan/robustness.ts';
import { costAbove, type FirstStep } from './first-step.ts';

/** A stated chance: of a cause among the cases, or of an outcome of a check given a cause (null: given any not named). */
export type StatedChance =
  | { readonly kind: 'cause'; readonly cause: string }
  | { readonly kind: 'outcome'; readonly check: string; readonly cause: string | null; readonly outcome: string };

export interface Lever {
  readonly chance: StatedChance;
  readonly now: number;
  /** The value past which the other step comes first; null when no value within three standard deviations does that. */
  readonly turnsAt: number | null;
  /** What one standard deviation of it adds to or takes from the lead of the first step, in money. */
  readonly weight: number;
}

interface Movable {
  readonly chance: StatedChance;
  readonly now: number;
  readonly deviation: number;
  readonly movedTo: (value: number) => TroubleshootingModel;
}

/** The `most` weightiest stated chances for whether `first` or `rival` comes first, weightiest first. */
export function levers(
  model: TroubleshootingModel,
  hypotheses: readonly Hypothesis[],
  checks: Readonly<Record<string, CheckFacts>>,
  [first, rival]: readonly [FirstStep, FirstStep],
  strengths: Strengths,
  most: number,
): readonly Lever[] {
  const lead = (moved: TroubleshootingModel) => costAbove(moved, rival, first);
  const stated = lead(model);
  const movable = [
    ...movableCauses(model, hypotheses, strengths.priorStrength),
    ...[first, rival].flatMap((step) =>
      step.kind === 'check' ? movableOutcomes(model, step.action!, hypotheses, checks, strengths.likelihoodStrength) : [],
    ),
  ];
  return movable
    .map((one) => ({
      one,
      weight: Math.max(
        ...[one.now - one.deviation, one.now + one.deviation].map((value) => Math.abs(lead(one.movedTo(inside(value))) - stated)),
      ),
    }))
    .filter(({ weight }) => weight > 1e-9)
    .sort((a, b) => b.weight - a.weight)
    .slice(0, most)
    .map(({ one, weight }) => ({
      chance: one.chance,
      now: one.now,
      turnsAt: turningPoint((value) => lead(one.movedTo(value)), one.now, 3 * one.deviation),
      weight,
    }));
}

const inside = (chance: number): number => Math.min(0.995, Math.max(0.005, chance));

/** Standard deviation of one chance of a Dirichlet distribution. */
const deviationOf = (chance: number, strength: number): number => Math.sqrt((chance * (1 - chance)) / (strength + 1));

/** The value nearest to `now` at which the lead is gone, to three digits, or null. */
function turningPoint(lead: (value: number) => number, now: number, reach: number): number | null {
  const found = [inside(now - reach), inside(now + reach)].flatMap((end) => {
    if (lead(end) > 0) return [];
    let [keeps, turns] = [now, end];
    while (Math.abs(turns - keeps) > 5e-4) {
      const middle = (keeps + turns) / 2;
      if (lead(middle) > 0) keeps = middle;
      else turns = middle;
    }
    return [turns];
  });
  return found.sort((a, b) => Math.abs(a - now) - Math.abs(b - now))[0] ?? null;
}

function movableCauses(model: TroubleshootingModel, hypotheses: readonly Hypothesis[], strength: number): Movable[] {
  const causes = [...new Set(hypotheses.flatMap(({ cause }) => cause ?? []))];
  return causes.map((cause): Movable => {
    const isIt = hypotheses.map((hypothesis) => hypothesis.cause === cause);
    const now = model.prior.reduce((sum, chance, index) => sum + (isIt[index] ? chance : 0), 0);
    return {
      chance: { kind: 'cause', cause },
      now,
      deviation: deviationOf(now, strength),
      movedTo: (value) => ({ ...model, prior: model.prior.map((chance, index) => moved(chance, isIt[index]!, now, value)) }),
    };
  });
}

function movableOutcomes(
  model: TroubleshootingModel,
  action: number,
  hypotheses: readonly Hypothesis[],
  facts: Readonly<Record<string, CheckFacts>>,
  strength: number,
): Movable[] {
  const check = model.checks[action]!;
  const { outcomes, likelihood, provokes, otherwise } = facts[check.id]!;
  const rowOf = ({ cause, hidden }: Hypothesis) => (cause !== null && likelihood[cause] && (!hidden || provokes) ? cause : null);
  const rows = hypotheses.map(rowOf);
  // Of two outcomes the chance of one is that of the other: the bad one, which is written, stands for both.
  const shown = outcomes.map(({ id }, outcome) => ({ id, outcome })).slice(outcomes.length === 2 ? 1 : 0);
  return [...new Set(rows)].flatMap((cause) =>
    shown.map(({ id, outcome }): Movable => {
      const now = (cause === null ? otherwise : likelihood[cause]!)[outcome]!;
      return {
        chance: { kind: 'outcome', check: check.id, cause, outcome: id },
        now,
        deviation: deviationOf(now, strength),
        movedTo: (value) => ({
          ...model,
          checks: model.checks.map((other, index) =>
            index === action
              ? {
                  ...other,
                  likelihood: other.likelihood.map((row, hypothesis) =>
                    rows[hypothesis] === cause ? row.map((chance, at) => moved(chance, at === outcome, now, value)) : row,
                  ),
                }
              : other,
          ),
        }),
      };
    }),
  );
}

/** One chance of a distribution after those marked were moved from `now` to `value` together, and the others in proportion. */
const moved = (chance: number, isMarked: boolean, now: number, value: number): number =>
  isMarked ? (now > 0 ? (chance * value) / now : chance) : now < 1 ? (chance * (1 - value)) / (1 - now) : chance;
