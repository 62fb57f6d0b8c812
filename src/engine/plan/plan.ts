import type { CostedPolicy } from './greedy.ts';
import { compileInstance, startStatus } from './instance.ts';
import { KnownCosts } from './known-cost.ts';
import type { Budget, Plan, TroubleshootingModel } from './model.ts';
import { PairBound } from './pair-bound.ts';
import { cheaper, HASTY, improvedPolicy, PATIENT, quickPolicy, THOROUGH } from './quick-policy.ts';
import { Search } from './search.ts';

/** Below this many nodes there is no time for the pair bound. */
const FEWEST_FOR_BOUND = 20;

/** Below this many nodes a search proves next to nothing beyond the bound at its root. */
const FEWEST_FOR_SEARCH = 30;

/**
 * The cheapest policy found within the budget, its exact expected cost and a proven lower bound. The smallest budgets
 * (below 20 nodes) get the greedy policy, improved state by state, and the omniscient bound; from 20 on the pair bound,
 * whose detail grows with the budget; from 30 on a search as well, and more improvement.
 */
export function plan(model: TroubleshootingModel, budget: Budget): Plan {
  const instance = compileInstance(model);
  const status = startStatus(instance);
  const prior = Float64Array.from(model.prior);
  const { nodes, stop } = budget;
  const quick = quickPolicy(instance, prior, status, nodes <= 10 ? HASTY : THOROUGH, stop);
  if (nodes < FEWEST_FOR_BOUND) return asPlan(quick, new KnownCosts(instance).expected(prior, status), 0);
  const detail = pairDetail(nodes);
  const bound = new PairBound(instance, prior, status, detail);
  const atRoot = bound.tune(prior, status, detail.rounds);
  if (nodes < FEWEST_FOR_SEARCH) return asPlan(quick, atRoot, 0);
  const search = new Search(instance, prior, status, bound);
  search.run(nodes, stop);
  const found = search.policy(nodes < 1000 ? 1e-3 : nodes < 10000 ? 3e-4 : 1e-4);
  let best = cheaper(quick, found);
  if (!search.solved) best = improvedPolicy(instance, best, prior, status, { ...PATIENT, mostWork: 10_000 * nodes, stop });
  return asPlan(best, search.root.lower, search.nodes);
}

/** Detail of the pair bound, and rounds of dividing costs, for a budget of nodes. */
export function pairDetail(nodes: number) {
  if (nodes < 100) return { mostPairs: 150, mostSets: 24, rounds: 5 };
  if (nodes < 300) return { mostPairs: 500, mostSets: 256, rounds: 10 };
  return { mostPairs: 1500, mostSets: 512, rounds: 15 };
}

function asPlan({ node, cost }: CostedPolicy, lower: number, nodes: number): Plan {
  // Within rounding of each other the bounds have met.
  const lowerBound = lower >= cost * (1 - 1e-9) ? cost : lower;
  return { policy: node, expectedCost: cost, lowerBound, gap: lowerBound > 0 ? (cost - lowerBound) / lowerBound : 0, nodes };
}
