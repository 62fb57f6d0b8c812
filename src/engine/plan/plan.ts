import { GreedyPlanner } from './greedy.ts';
import { compileInstance, startStatus } from './instance.ts';
import type { Budget, Plan, TroubleshootingModel } from './model.ts';
import { PairBound } from './pair-bound.ts';
import { Search } from './search.ts';

/** The cheapest policy found within the budget, its exact expected cost and a proven lower bound. */
export function plan(model: TroubleshootingModel, budget: Budget): Plan {
  const instance = compileInstance(model);
  const status = startStatus(instance);
  const prior = Float64Array.from(model.prior);
  const bound = new PairBound(instance, prior, status, 6);
  bound.tune(prior, status, 10);
  const search = new Search(instance, prior, status, bound);
  search.run(budget.nodes, budget.stop);
  const searched = search.policy();
  const greedy = new GreedyPlanner(instance, 1e-5, 2000).build(prior, status, 1);
  const best = searched.cost <= greedy.cost ? searched : greedy;
  const proven = search.root.lower >= best.cost * (1 - 1e-9);
  const lowerBound = proven ? best.cost : search.root.lower;
  return {
    policy: best.node,
    expectedCost: best.cost,
    lowerBound,
    gap: lowerBound > 0 ? (best.cost - lowerBound) / lowerBound : 0,
    nodes: search.nodes,
  };
}
