/** Everything about one troubleshooting problem that pages show and that takes time to compute. Plain JSON. */
import {
  type Budget,
  comparePolicyWith,
  type Ending,
  explain,
  type Plan,
  type PolicyNode,
  plan,
  type Robustness,
  robustness,
  type SpineStep,
  type StepReason,
  type Strategy,
  type StrategyResult,
  type TroubleshootingModel,
} from '../engine/plan/index.ts';

/** Chance solved for at most this much: a rising staircase of [cost, chance]. */
export type Curve = readonly (readonly [cost: number, chance: number])[];

export interface OtherOrder {
  readonly strategy: Strategy;
  readonly expectedCost: number;
  readonly summary: StrategyResult['summary'];
  readonly curve: Curve;
}

export interface Order {
  readonly policy: PolicyNode;
  readonly expectedCost: number;
  readonly lowerBound: number;
  readonly gap: number;
  readonly nodes: number;
  /** The computed order first, then the orders that people use instead. */
  readonly orders: readonly OtherOrder[];
  /** One for each step of the spine. */
  readonly reasons: readonly StepReason[];
  readonly firmness: Robustness;
}

/** The spine of the order's policy. */
export const spineOf = (order: Order): readonly SpineStep[] => order.reasons.map(({ step }) => step);

export interface OrderBudget {
  /** For the plan itself. */
  readonly plan: Budget;
  /** Situations with moved chances that are planned anew, and the budget of each. */
  readonly samples: number;
  readonly sample: Budget;
}

/** How firm the numbers are taken to be when the order is tried with moved ones: as if so many cars stood behind them. */
export const strengths = { priorStrength: 40, likelihoodStrength: 40 } as const;

/** `proved`: a plan for exactly this model that was found with a longer budget. */
export function computeOrder(model: TroubleshootingModel, budget: OrderBudget, proved: Plan | null = null): Order {
  const found = proved ?? plan(model, budget.plan);
  return {
    policy: found.policy,
    expectedCost: found.expectedCost,
    lowerBound: found.lowerBound,
    gap: found.gap,
    nodes: found.nodes,
    orders: comparePolicyWith(model, found.policy).map(({ strategy, expectedCost, summary, distribution }) => ({
      strategy,
      expectedCost,
      summary,
      curve: curveOf(distribution),
    })),
    reasons: explain(model, found.policy),
    firmness: robustness(model, found.policy, { ...strengths, samples: budget.samples, start: 1, budget: budget.sample }),
  };
}

const leastRise = 0.004;

/** The exact distribution as a staircase; rises too small to see are joined with the next. */
export function curveOf(distribution: readonly Ending[]): Curve {
  const points: [number, number][] = [[0, 0]];
  let chance = 0;
  let shown = 0;
  let last: [number, number] | null = null;
  for (const ending of distribution) {
    if (!ending.solved) continue;
    chance += ending.probability;
    last = [Number(ending.cost.toFixed(2)), Number(chance.toFixed(4))];
    if (chance - shown < leastRise) continue;
    points.push(last);
    shown = chance;
  }
  const end = points.at(-1)!;
  if (last && last[1] > end[1]) points.push(last);
  return points;
}
