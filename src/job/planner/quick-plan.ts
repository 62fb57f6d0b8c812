/**
 * A whole policy in the time that a person waits: decided step by step by one look ahead, in ever finer detail while time is
 * left. Searching for the last percent is left to the build, which has minutes.
 */
import { type CostedPolicy, GreedyPlanner } from '../../engine/plan/greedy.ts';
import type { TroubleshootingModel } from '../../engine/plan/index.ts';
import { compileInstance, startStatus } from '../../engine/plan/instance.ts';
import { KnownCosts } from '../../engine/plan/known-cost.ts';

/** Branches less likely than this are left to repairs by cost over chance at first; then ever less likely ones are followed. */
const coarsest = 0.08;
const finest = 1e-4;
const finer = 4;

/** The cheapest of the policies built before `enough` says to stop; asked between two of them, so the first is always whole. */
export function quickPlan(model: TroubleshootingModel, mostNodes: number, enough: () => boolean = () => false): CostedPolicy {
  const instance = compileInstance(model);
  const status = startStatus(instance);
  const belief = Float64Array.from(model.prior);
  let best: CostedPolicy | null = null;
  for (let least = coarsest; least >= finest; least /= finer) {
    const planner = new GreedyPlanner(instance, least, mostNodes);
    const built = planner.build(belief, status, 1);
    if (!best || built.cost < best.cost) best = built;
    if (finer * planner.nodes > mostNodes || enough()) break;
  }
  return best!;
}

/** Proven: no order of checks and repairs of this model costs less. What someone would pay who knew the cause from the start. */
export function leastCost(model: TroubleshootingModel): number {
  const instance = compileInstance(model);
  return new KnownCosts(instance).expected(model.prior, startStatus(instance));
}
