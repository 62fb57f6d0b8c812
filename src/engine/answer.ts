/** The whole answer for a case: belief, plan, steps and comparison, from one call. */
import type { Case } from './case.ts';
import { type Formulation, formulate } from './formulate.ts';
import type { Knowledge } from './knowledge.ts';
import { type Budget, comparePolicyWith, type Plan, plan, type StrategyResult, type TroubleshootingModel } from './plan/index.ts';
import { type Step, stepsOf } from './steps.ts';

export interface Answer {
  readonly formulation: Formulation;
  readonly plan: Plan;
  readonly steps: readonly Step[];
  readonly comparison: readonly StrategyResult[];
}

/** Work of one plan in a build or on the command line: the greedy policy at once. Certificates of `npm run prove` go further. */
export const defaultBudget: Budget = { nodes: 20 };

/** `proved` may hold a plan for exactly the model of the case, found with a longer budget. */
export function answer(
  situation: Case,
  knowledge: Knowledge,
  budget: Budget = defaultBudget,
  proved: (model: TroubleshootingModel) => Plan | null = () => null,
): Answer {
  const formulation = formulate(situation, knowledge);
  const found = proved(formulation.model) ?? plan(formulation.model, budget);
  return {
    formulation,
    plan: found,
    steps: stepsOf(formulation, found.policy, knowledge),
    comparison: comparePolicyWith(formulation.model, found.policy),
  };
}
