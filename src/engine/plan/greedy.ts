import { type Instance, isOpen, markDone, removeFixed, stepCost, updateByOutcome } from './instance.ts';
import { listPolicy, scale } from './list-policy.ts';
import type { PolicyNode } from './model.ts';
import { RepairSequencer } from './repair-sequence.ts';

/** A policy with its exact expected cost from where it starts (belief scaled to sum 1). */
export interface CostedPolicy {
  readonly node: PolicyNode;
  readonly cost: number;
}

/** So many checks are looked at in full at one state, so many of them for what they tell per cost. */
const MOST_LISTED = 16;
const BY_RATIO = 11;

/**
 * One-step value of information against the repair sequence: do the check whose outcome-by-outcome repair sequences,
 * with its own cost, are cheapest, as long as that beats going on with repairs; else make the next repair. Decided anew
 * after each result (Heckerman, Breese & Rommelse 1995), so the policy is at most as dear as the repair sequence.
 */
export class GreedyPlanner {
  readonly sequencer: RepairSequencer;
  nodes = 0;
  private readonly instance: Instance;
  private readonly least: number;
  private readonly limit: number;
  /** Filled by `shortlist`. */
  private readonly listed: Int32Array;
  private readonly gain: Float64Array;
  private readonly perCost: Float64Array;
  private readonly child: Float64Array;
  private readonly childStatus: Uint8Array;

  /** Branches reached with a chance below `least`, and everything past `limit` nodes, are left to the repair sequence. */
  constructor(instance: Instance, least: number, limit: number) {
    this.instance = instance;
    this.least = least;
    this.limit = limit;
    this.sequencer = new RepairSequencer(instance);
    this.listed = new Int32Array(instance.checks);
    this.gain = new Float64Array(instance.checks);
    this.perCost = new Float64Array(instance.checks);
    this.child = new Float64Array(instance.hypotheses);
    this.childStatus = new Uint8Array(instance.statusLength);
  }

  /** Belief sums to 1; `reach` is the chance of being here. */
  build(belief: Float64Array, status: Uint8Array, reach: number): CostedPolicy {
    const { instance } = this;
    const base = this.sequencer.cost(belief, status, 1);
    const firstRepair = this.sequencer.length > 0 ? (this.sequencer.actions[0] as number) : -1;
    this.nodes++;
    if (reach < this.least || this.nodes > this.limit) return this.sequencePolicy(belief, status);
    const check = this.bestCheck(belief, status, base);
    const action = check >= 0 ? check : firstRepair;
    if (action < 0) return { node: { kind: 'hand-over', cost: instance.handOverCost }, cost: instance.handOverCost };
    const built = this.buildStep(action, belief, status, reach);
    return built.cost <= base ? built : this.sequencePolicy(belief, status);
  }

  /** The check that saves most in one step against `base`, or -1. */
  private bestCheck(belief: Float64Array, status: Uint8Array, base: number): number {
    let best = base * (1 - 1e-12);
    let chosen = -1;
    const count = this.shortlist(belief, status);
    for (let i = 0; i < count; i++) {
      const check = this.listed[i] as number;
      const cost = this.oneStep(belief, status, check, best);
      if (cost < best) {
        best = cost;
        chosen = check;
      }
    }
    return chosen;
  }

  /**
   * Open checks worth a full look, into `listed`; returns their number. All of them when they are few; else the best by
   * how much surer they make one (gain in the sum of squared chances), per cost and outright.
   */
  private shortlist(belief: Float64Array, status: Uint8Array): number {
    const { instance, listed, gain, perCost } = this;
    let count = 0;
    for (let check = 0; check < instance.checks; check++) {
      if (isOpen(instance, status, check)) listed[count++] = check;
    }
    if (count <= MOST_LISTED) return count;
    let before = 0;
    for (let h = 0; h < instance.hypotheses; h++) before += (belief[h] as number) ** 2;
    for (let i = 0; i < count; i++) {
      const check = listed[i] as number;
      gain[i] = this.concentration(belief, check) - before;
      perCost[i] = (gain[i] as number) / (stepCost(instance, status, check) + 1e-3 * instance.handOverCost);
    }
    let kept = this.bringForward(perCost, 0, count, BY_RATIO);
    kept = this.bringForward(gain, kept, count, MOST_LISTED - BY_RATIO);
    return kept;
  }

  /** Moves the `most` entries with the highest score among listed[from..count) to `from` on; returns where they end. */
  private bringForward(score: Float64Array, from: number, count: number, most: number): number {
    const { listed, gain, perCost } = this;
    const end = Math.min(count, from + most);
    for (let at = from; at < end; at++) {
      let best = at;
      for (let i = at + 1; i < count; i++) if ((score[i] as number) > (score[best] as number)) best = i;
      swap(listed, at, best);
      swap(gain, at, best);
      swap(perCost, at, best);
    }
    return end;
  }

  /** Expected sum of squared chances after a check (belief sums to 1). */
  private concentration(belief: Float64Array, check: number): number {
    const { instance } = this;
    const n = instance.hypotheses;
    const { likelihood } = instance;
    let from = instance.likelihoodAt[check] as number;
    let expected = 0;
    for (let outcome = 0; outcome < (instance.outcomes[check] as number); outcome++) {
      let sum = 0;
      let squares = 0;
      for (let h = 0; h < n; h++) {
        const weight = (belief[h] as number) * (likelihood[from + h] as number);
        sum += weight;
        squares += weight * weight;
      }
      if (sum > 0) expected += squares / sum;
      from += n;
    }
    return expected;
  }

  /** Cost of a check with the repair sequence after each outcome; stops adding once past `enough`. */
  oneStep(belief: Float64Array, status: Uint8Array, check: number, enough: number): number {
    const { instance, child, childStatus } = this;
    let cost = stepCost(instance, status, check);
    childStatus.set(status);
    markDone(instance, childStatus, check);
    const outcomes = instance.outcomes[check] as number;
    for (let outcome = 0; outcome < outcomes && cost < enough; outcome++) {
      const weight = updateByOutcome(instance, belief, check, outcome, child);
      if (weight > 0) cost += this.sequencer.cost(child, childStatus, weight);
    }
    return cost;
  }

  private buildStep(action: number, belief: Float64Array, status: Uint8Array, reach: number): CostedPolicy {
    const { instance } = this;
    const cost = stepCost(instance, status, action);
    const next = status.slice();
    markDone(instance, next, action);
    if (action >= instance.checks) {
      const left = belief.slice();
      const repair = action - instance.checks;
      removeFixed(instance, left, repair);
      const weight = scale(left);
      if (weight <= 0) return { node: { kind: 'repair', action: repair, cost, next: null }, cost };
      const after = this.build(left, next, reach * weight);
      return { node: { kind: 'repair', action: repair, cost, next: after.node }, cost: cost + weight * after.cost };
    }
    let expected = cost;
    const branches: (PolicyNode | null)[] = [];
    for (let outcome = 0; outcome < (instance.outcomes[action] as number); outcome++) {
      const posterior = new Float64Array(instance.hypotheses);
      updateByOutcome(instance, belief, action, outcome, posterior);
      const weight = scale(posterior);
      if (weight <= 0) {
        branches.push(null);
        continue;
      }
      const after = this.build(posterior, next, reach * weight);
      branches.push(after.node);
      expected += weight * after.cost;
    }
    return { node: { kind: 'check', action, cost, next: branches }, cost: expected };
  }

  /** The repair sequence as a policy: the results of forced checks change nothing but what cannot happen is left out. */
  sequencePolicy(belief: Float64Array, status: Uint8Array): CostedPolicy {
    const cost = this.sequencer.cost(belief, status, 1);
    const actions = this.sequencer.actions.slice(0, this.sequencer.length);
    return { node: listPolicy(this.instance, actions, 0, belief, status), cost };
  }
}

function swap(list: Int32Array | Float64Array, a: number, b: number): void {
  const kept = list[a] as number;
  list[a] = list[b] as number;
  list[b] = kept;
}
