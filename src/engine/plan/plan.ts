import { type CostedPolicy, GreedyPlanner } from './greedy.ts';
import { compileInstance, type Instance, startStatus } from './instance.ts';
import { KnownCosts } from './known-cost.ts';
import type { Budget, Plan, TroubleshootingModel } from './model.ts';
import { PairBound } from './pair-bound.ts';
import { Rollout } from './rollout.ts';
import { Search } from './search.ts';

/** Below this many nodes a search proves next to nothing, and laying out the pair bound would cost more than it. */
const FEWEST_FOR_SEARCH = 30;

/**
 * The cheapest policy found within the budget, its exact expected cost and a proven lower bound. Small budgets (below 30
 * nodes) get the greedy policy and the omniscient bound at once; larger ones a search, with a pair bound whose detail
 * grows with the budget, and a rollout where the search leaves a gap.
 */
export function plan(model: TroubleshootingModel, budget: Budget): Plan {
  const instance = compileInstance(model);
  const status = startStatus(instance);
  const prior = Float64Array.from(model.prior);
  const greedy = greedyPolicy(instance, prior, status, Math.min(2000, 30 * budget.nodes));
  if (budget.nodes < FEWEST_FOR_SEARCH) {
    const known = new KnownCosts(instance);
    return asPlan(
      greedy,
      prior.reduce((sum, weight, h) => sum + weight * known.of(h, status), 0),
      0,
    );
  }
  const detail = pairDetail(budget.nodes);
  const bound = new PairBound(instance, prior, status, detail);
  bound.tune(prior, status, detail.rounds);
  const search = new Search(instance, prior, status, bound);
  search.run(budget.nodes, budget.stop);
  const options = rolloutOptions(budget.nodes);
  const policies = [greedy, search.policy(options.fine)];
  if (!search.solved && !budget.stop?.()) policies.push(new Rollout(instance, options).build(prior, status, 1));
  const best = policies.reduce((cheapest, policy) => (policy.cost < cheapest.cost ? policy : cheapest));
  return asPlan(best, search.root.lower, search.nodes);
}

function pairDetail(nodes: number) {
  if (nodes < 300) return { mostPairs: 150, mostChecks: 4, rounds: 4 };
  return { mostPairs: nodes < 3000 ? 500 : 1500, mostChecks: 6, rounds: 10 };
}

function rolloutOptions(nodes: number) {
  if (nodes < 1000) return { leastReach: 0.2, candidates: 4, coarse: 0.05, fine: 1e-3 };
  if (nodes < 10000) return { leastReach: 0.05, candidates: 4, coarse: 0.05, fine: 3e-4 };
  return { leastReach: 0.01, candidates: 8, coarse: 0.02, fine: 1e-4 };
}

/** The greedy policy in ever finer detail (less likely branches followed) until it has about this many nodes. */
function greedyPolicy(instance: Instance, belief: Float64Array, status: Uint8Array, mostNodes: number): CostedPolicy {
  let best: CostedPolicy | null = null;
  for (let least = 0.05; least > 1e-6; least /= 4) {
    const planner = new GreedyPlanner(instance, least, mostNodes);
    const built = planner.build(belief, status, 1);
    if (!best || built.cost < best.cost) best = built;
    if (3 * planner.nodes > mostNodes) break;
  }
  return best as CostedPolicy;
}

function asPlan({ node, cost }: CostedPolicy, lower: number, nodes: number): Plan {
  // Within rounding of each other the bounds have met.
  const lowerBound = lower >= cost * (1 - 1e-9) ? cost : lower;
  return { policy: node, expectedCost: cost, lowerBound, gap: lowerBound > 0 ? (cost - lowerBound) / lowerBound : 0, nodes };
}
