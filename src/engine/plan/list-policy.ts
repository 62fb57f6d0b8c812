import { type Instance, markDone, removeFixed, stepCost, updateByOutcome } from './instance.ts';
import type { PolicyNode } from './model.ts';

/**
 * A list of actions as a policy that makes them in turn, whatever the results of its checks, and then hands over. What
 * cannot happen is left out. Belief of any scale.
 */
export function listPolicy(instance: Instance, actions: Int32Array, from: number, belief: Float64Array, status: Uint8Array): PolicyNode {
  const action = actions[from];
  if (action === undefined) return { kind: 'hand-over', cost: instance.handOverCost };
  const cost = stepCost(instance, status, action);
  const next = status.slice();
  markDone(instance, next, action);
  if (action >= instance.checks) {
    const left = belief.slice();
    const repair = action - instance.checks;
    removeFixed(instance, left, repair);
    const after = scale(left) > 0 ? listPolicy(instance, actions, from + 1, left, next) : null;
    return { kind: 'repair', action: repair, cost, next: after };
  }
  const branches = Array.from({ length: instance.outcomes[action] as number }, (_, outcome) => {
    const posterior = new Float64Array(instance.hypotheses);
    updateByOutcome(instance, belief, action, outcome, posterior);
    return scale(posterior) > 0 ? listPolicy(instance, actions, from + 1, posterior, next) : null;
  });
  return { kind: 'check', action, cost, next: branches };
}

/** Scales to sum 1; returns the sum before. */
export function scale(belief: Float64Array): number {
  let sum = 0;
  for (let h = 0; h < belief.length; h++) sum += belief[h] as number;
  if (sum > 0) for (let h = 0; h < belief.length; h++) belief[h] = (belief[h] as number) / sum;
  return sum;
}
