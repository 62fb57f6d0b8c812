import { fixedWeight, type Instance, isOpen, markDone, stepCost } from './instance.ts';
import { listPolicy } from './list-policy.ts';
import type { PolicyNode } from './model.ts';
import { RepairSequencer } from './repair-sequence.ts';

/**
 * A policy as a tree laid out at the beliefs that it meets. Beliefs are weighted by the chance of being there, seen from
 * the root, so that `value` is the node's part in the expected cost of the whole. As long as nobody chooses anew, the
 * cost of a policy is linear in the belief: `perHypothesis` holds it, so that other beliefs are a sum of products away.
 */
export interface TreeNode {
  /** Checks first, then repairs, then handing over, as in the instance. */
  readonly action: number;
  /** Paid here, set-ups and change of engine state included. */
  readonly cost: number;
  /** Set-ups paid here. */
  readonly pays: readonly number[];
  readonly belief: Float64Array;
  readonly reach: number;
  /** By outcome; for a repair one, the fault still there. null where the chance is 0. */
  readonly next: (TreeNode | null)[];
  /** Expected cost from here in the world of each hypothesis. */
  readonly perHypothesis: Float64Array;
  value: number;
  /** Of a leaf that stands for the repair sequence: its actions. */
  readonly list?: Int32Array;
}

/** Results that are known already while a tree is laid out elsewhere: -1 or the outcome, by check. */
export type Known = Int16Array;

const NO_SET_UPS: readonly number[] = [];

/** Lays policies out at beliefs: the repair sequence, and trees that were made for another place. */
export class PolicyTrees {
  readonly sequencer: RepairSequencer;
  /** Nodes laid out so far: the measure of work. */
  laidOut = 0;
  /** Less likely branches follow the repair sequence. */
  leastReach = 0;
  private readonly instance: Instance;

  constructor(instance: Instance, sequencer = new RepairSequencer(instance)) {
    this.instance = instance;
    this.sequencer = sequencer;
  }

  handOver(belief: Float64Array): TreeNode {
    const { instance } = this;
    const reach = sumOf(belief);
    const cost = instance.handOverCost;
    this.laidOut++;
    return {
      action: instance.handOver,
      cost,
      pays: NO_SET_UPS,
      belief,
      reach,
      next: [],
      perHypothesis: new Float64Array(instance.hypotheses).fill(cost),
      value: reach * cost,
    };
  }

  /** The repair sequence from here, as a leaf. Keeps `belief`. */
  sequence(belief: Float64Array, status: Uint8Array): TreeNode {
    const { instance, sequencer } = this;
    const reach = sumOf(belief);
    const value = sequencer.cost(belief, status, reach);
    this.laidOut++;
    const list = sequencer.actions.slice(0, sequencer.length);
    if (list.length === 0) return this.handOver(belief);
    const perHypothesis = new Float64Array(instance.hypotheses).fill(instance.handOverCost);
    let offset = 0;
    for (let k = list.length - 1; k >= 0; k--) {
      const action = list[k] as number;
      const cost = sequencer.costs[k] as number;
      if (action >= instance.checks) {
        const repair = action - instance.checks;
        for (let i = instance.fixAt[repair] as number; i < (instance.fixAt[repair + 1] as number); i++) {
          const h = instance.fixHypothesis[i] as number;
          const rest = offset + (perHypothesis[h] as number);
          perHypothesis[h] = (perHypothesis[h] as number) - (instance.fixChance[i] as number) * rest;
        }
      }
      offset += cost;
    }
    for (let h = 0; h < perHypothesis.length; h++) perHypothesis[h] = (perHypothesis[h] as number) + offset;
    return { action: instance.handOver + 1, list, cost: 0, pays: NO_SET_UPS, belief, reach, next: [], perHypothesis, value };
  }

  /** A sequence leaf with its first action laid out. */
  expand(leaf: TreeNode, status: Uint8Array): TreeNode {
    const first = (leaf.list as Int32Array)[0] as number;
    return this.step(first, leaf.belief, status, (after, next) => this.sequence(after, next));
  }

  /** An action with what follows each of its results. Keeps `belief`; `after` keeps the belief that it is given. */
  step(
    action: number,
    belief: Float64Array,
    status: Uint8Array,
    after: (belief: Float64Array, status: Uint8Array, outcome: number) => TreeNode,
  ): TreeNode {
    const { instance } = this;
    const cost = stepCost(instance, status, action);
    const pays = unpaid(instance, status, action);
    const nextStatus = status.slice();
    markDone(instance, nextStatus, action);
    const next: (TreeNode | null)[] = [];
    const n = instance.hypotheses;
    if (action >= instance.checks) {
      const left = afterRepair(instance, belief, action - instance.checks);
      next.push(sumOf(left) > 0 ? after(left, nextStatus, 0) : null);
    } else {
      const { likelihood } = instance;
      let row = instance.likelihoodAt[action] as number;
      for (let o = 0; o < (instance.outcomes[action] as number); o++) {
        const posterior = new Float64Array(n);
        let sum = 0;
        for (let h = 0; h < n; h++) {
          const weight = (belief[h] as number) * (likelihood[row + h] as number);
          posterior[h] = weight;
          sum += weight;
        }
        next.push(sum > 0 ? after(posterior, nextStatus, o) : null);
        row += n;
      }
    }
    return this.node(action, cost, pays, belief, next);
  }

  private node(action: number, cost: number, pays: readonly number[], belief: Float64Array, next: (TreeNode | null)[]): TreeNode {
    this.laidOut++;
    const made = {
      action,
      cost,
      pays,
      belief,
      reach: sumOf(belief),
      next,
      perHypothesis: new Float64Array(this.instance.hypotheses),
      value: 0,
    };
    this.refresh(made);
    return made;
  }

  /** Works the costs of a node out anew from its children. */
  refresh(node: TreeNode): void {
    const { instance } = this;
    const n = instance.hypotheses;
    const { perHypothesis, next, action, cost } = node;
    if (action >= instance.handOver) return;
    perHypothesis.fill(cost);
    if (action >= instance.checks) {
      const repair = action - instance.checks;
      const after = next[0];
      for (let h = 0; h < n; h++) perHypothesis[h] = cost + (after ? (after.perHypothesis[h] as number) : instance.handOverCost);
      for (let i = instance.fixAt[repair] as number; i < (instance.fixAt[repair + 1] as number); i++) {
        const h = instance.fixHypothesis[i] as number;
        perHypothesis[h] = cost + (1 - (instance.fixChance[i] as number)) * ((perHypothesis[h] as number) - cost);
      }
    } else {
      let row = instance.likelihoodAt[action] as number;
      for (let o = 0; o < next.length; o++) {
        const after = next[o];
        for (let h = 0; h < n; h++) {
          const rest = after ? (after.perHypothesis[h] as number) : instance.handOverCost;
          perHypothesis[h] = (perHypothesis[h] as number) + (instance.likelihood[row + h] as number) * rest;
        }
        row += n;
      }
    }
    let value = 0;
    for (let h = 0; h < n; h++) value += (node.belief[h] as number) * (perHypothesis[h] as number);
    node.value = value;
  }

  /**
   * A tree laid out at another belief and status. Checks whose result is known go straight to what follows it; repairs
   * tried already, and actions that are not open here, are left out (of a check, the likeliest branch goes on). What
   * the tree has no branch for follows the repair sequence. Keeps `belief`.
   */
  graft(tree: TreeNode | null, belief: Float64Array, status: Uint8Array, known: Known): TreeNode {
    const { instance } = this;
    if (!tree || tree.list || sumOf(belief) < this.leastReach) return this.sequence(belief, status);
    let at: TreeNode | null = tree;
    let used = -1;
    let kept = -1;
    while (at && at.action < instance.handOver) {
      const { action } = at;
      if (action >= instance.checks) {
        if (isOpen(instance, status, action) && fixedWeight(instance, belief, action - instance.checks) > 1e-14 * at.reach) break;
        at = at.next[0] ?? null;
        continue;
      }
      const result = known[action] as number;
      if (result >= 0) {
        at = at.next[result] ?? null;
        if ((instance.allowed[action] as number) > 1 && used < 0) {
          used = action;
          kept = result;
          known[action] = -1;
        }
        continue;
      }
      if (isOpen(instance, status, action)) break;
      at = likeliest(at);
    }
    let made: TreeNode;
    if (!at || at.list) made = this.sequence(belief, status);
    else if (at.action === instance.handOver) made = this.handOver(belief);
    else {
      const from = at;
      const { action } = from;
      const spoils = action >= instance.checks ? (instance.spoils[action - instance.checks] as Int32Array) : null;
      const forgotten = spoils && spoils.length > 0 ? known.slice() : null;
      if (spoils) for (let i = 0; i < spoils.length; i++) known[spoils[i] as number] = -1;
      made = this.step(action, belief, status, (after, next, outcome) => this.graft(from.next[outcome] ?? null, after, next, known));
      if (forgotten) known.set(forgotten);
    }
    if (used >= 0) known[used] = kept;
    return made;
  }

  asPolicy(node: TreeNode, status: Uint8Array): PolicyNode {
    const { instance } = this;
    if (node.list) return listPolicy(instance, node.list, 0, node.belief, status);
    if (node.action === instance.handOver) return { kind: 'hand-over', cost: node.cost };
    const after = status.slice();
    markDone(instance, after, node.action);
    const next = node.next.map((child) => (child ? this.asPolicy(child, after) : null));
    if (node.action < instance.checks) return { kind: 'check', action: node.action, cost: node.cost, next };
    return { kind: 'repair', action: node.action - instance.checks, cost: node.cost, next: next[0] ?? null };
  }

  /** Reads a policy back in at the belief and status that it was made for. */
  fromPolicy(policy: PolicyNode | null, belief: Float64Array, status: Uint8Array): TreeNode {
    if (!policy) return this.sequence(belief, status);
    if (policy.kind === 'hand-over') return this.handOver(belief);
    if (sumOf(belief) < this.leastReach) return this.sequence(belief, status);
    const action = policy.kind === 'check' ? policy.action : this.instance.checks + policy.action;
    return this.step(action, belief, status, (after, next, outcome) =>
      this.fromPolicy(policy.kind === 'check' ? (policy.next[outcome] ?? null) : policy.next, after, next),
    );
  }
}

export function afterRepair(instance: Instance, belief: Float64Array, repair: number): Float64Array {
  const left = belief.slice();
  for (let i = instance.fixAt[repair] as number; i < (instance.fixAt[repair + 1] as number); i++) {
    const h = instance.fixHypothesis[i] as number;
    const chance = instance.fixChance[i] as number;
    left[h] = chance >= 1 ? 0 : (left[h] as number) * (1 - chance);
  }
  return left;
}

function unpaid(instance: Instance, status: Uint8Array, action: number): readonly number[] {
  const setUps = instance.setUpsOf[action] as Int32Array;
  let found: number[] | null = null;
  for (let i = 0; i < setUps.length; i++) {
    const setUp = setUps[i] as number;
    if (status[instance.paidAt + setUp]) continue;
    found ??= [];
    found.push(setUp);
  }
  return found ?? NO_SET_UPS;
}

/** The branch that the job most likely takes: where everything comes back good. */
export function likeliest(node: TreeNode): TreeNode | null {
  let best: TreeNode | null = null;
  for (const child of node.next) if (child && (!best || child.reach > best.reach)) best = child;
  return best;
}

export function sumOf(belief: Float64Array): number {
  let sum = 0;
  for (let h = 0; h < belief.length; h++) sum += belief[h] as number;
  return sum;
}
