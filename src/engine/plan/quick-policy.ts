import { type CostedPolicy, GreedyPlanner } from './greedy.ts';
import { Improver, type ImproverOptions } from './improve.ts';
import type { Instance } from './instance.ts';

/** How much improvement: for a glance, for an order that is kept, and for what a search has found. */
export const HASTY: ImproverOptions = { leastReach: [0.03, 0.01], tries: 1, changes: 4, mostWork: 5000 };
export const THOROUGH: ImproverOptions = { leastReach: [0.03, 0.01, 0.003, 0.001], tries: 1, changes: 8, mostWork: 300_000 };
export const PATIENT: Omit<ImproverOptions, 'mostWork'> = { leastReach: [0.003, 0.001, 0.0003], tries: 2, changes: 8 };

/** Branches less likely than this are left to the repair sequence by the first, greedy policy; it is so many nodes at most. */
const FIRST_REACH = 0.05;
const FIRST_NODES = 300;

/** The greedy policy, improved state by state. No bound comes with it. */
export function quickPolicy(
  instance: Instance,
  belief: Float64Array,
  status: Uint8Array,
  options: ImproverOptions,
  stop?: () => boolean,
): CostedPolicy {
  const first = new GreedyPlanner(instance, FIRST_REACH, FIRST_NODES).build(belief, status, 1);
  return improvedPolicy(instance, first, belief, status, { ...options, stop });
}

/** The policy given, or a cheaper one that it was improved to. */
export function improvedPolicy(
  instance: Instance,
  policy: CostedPolicy,
  belief: Float64Array,
  status: Uint8Array,
  options: ImproverOptions,
): CostedPolicy {
  const improver = new Improver(instance, options);
  const root = improver.run(improver.trees.fromPolicy(policy.node, belief, status), status);
  return cheaper(policy, { node: improver.trees.asPolicy(root, status), cost: root.value / root.reach });
}

export function cheaper(a: CostedPolicy, b: CostedPolicy): CostedPolicy {
  return b.cost < a.cost ? b : a;
}
