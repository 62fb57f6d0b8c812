import { GreedyPlanner } from './greedy.ts';
import { compileInstance, startStatus } from './instance.ts';
import type { Budget, Plan, TroubleshootingModel } from './model.ts';
import { knownCosts } from './omniscient.ts';

/** The cheapest policy found within the budget, its exact expected cost and a proven lower bound. */
export function plan(model: TroubleshootingModel, budget: Budget): Plan {
  const instance = compileInstance(model);
  const status = startStatus(instance);
  const prior = Float64Array.from(model.prior);
  const planner = new GreedyPlanner(instance, 1e-5, Math.max(1, budget.nodes));
  const built = planner.build(prior, status, 1);
  const known = knownCosts(instance, status);
  const omniscient = prior.reduce((sum, weight, h) => sum + weight * (known[h] as number), 0);
  const lowerBound = Math.min(omniscient, built.cost);
  return {
    policy: built.node,
    expectedCost: built.cost,
    lowerBound,
    gap: lowerBound > 0 ? (built.cost - lowerBound) / lowerBound : 0,
    nodes: planner.nodes,
  };
}
