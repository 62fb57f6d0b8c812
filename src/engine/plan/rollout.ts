import { type CostedPolicy, GreedyPlanner } from './greedy.ts';
import { fixedWeight, type Instance, isOpen, markDone, removeFixed, stepCost, updateByOutcome } from './instance.ts';
import { scale } from './list-policy.ts';

export interface RolloutOptions {
  /** Only states reached with at least this chance are looked at; below, the greedy policy stands. */
  readonly leastReach: number;
  /** Actions compared at each state: the best few by one-step value of information. */
  readonly candidates: number;
  /** How fine the greedy policies are that the candidates are compared by (least chance of a branch). */
  readonly coarse: number;
  /** How fine the greedy policies are that end the result. */
  readonly fine: number;
}

/** A state after an action: its chance and belief (sum 1). */
interface Successor {
  readonly weight: number;
  readonly belief: Float64Array;
}

/**
 * Rollout (Bertsekas & Castanon 1999): at each likely state the best few actions are compared by what the greedy policy
 * would cost after each of their results, the best is taken, and so on below. Never dearer than the greedy policy.
 */
export class Rollout {
  private readonly instance: Instance;
  private readonly options: RolloutOptions;
  private readonly oneStep: GreedyPlanner;

  constructor(instance: Instance, options: RolloutOptions) {
    this.instance = instance;
    this.options = options;
    this.oneStep = new GreedyPlanner(instance, 0, 0);
  }

  /** Belief sums to 1; `reach` is the chance of being here. */
  build(belief: Float64Array, status: Uint8Array, reach: number): CostedPolicy {
    const { instance, options } = this;
    const base = this.greedy(belief, status, options.fine, reach);
    if (reach < options.leastReach) return base;
    const action = this.bestAction(belief, status);
    if (action < 0) return base;
    const next = status.slice();
    markDone(instance, next, action);
    const cost = stepCost(instance, status, action);
    let expected = cost;
    const branches = this.after(action, belief).map((successor) => {
      if (successor.weight <= 0) return null;
      const built = this.build(successor.belief, next, reach * successor.weight);
      expected += successor.weight * built.cost;
      return built.node;
    });
    if (expected >= base.cost) return base;
    if (action < instance.checks) return { node: { kind: 'check', action, cost, next: branches }, cost: expected };
    return { node: { kind: 'repair', action: action - instance.checks, cost, next: branches[0] ?? null }, cost: expected };
  }

  private greedy(belief: Float64Array, status: Uint8Array, least: number, reach: number): CostedPolicy {
    return new GreedyPlanner(this.instance, least, Number.POSITIVE_INFINITY, this.oneStep.sequencer).build(belief, status, reach);
  }

  /** The best of the candidates, or -1 when handing over at once costs less than any. */
  private bestAction(belief: Float64Array, status: Uint8Array): number {
    const { instance, options } = this;
    const next = new Uint8Array(instance.statusLength);
    let best = instance.handOverCost;
    let chosen = -1;
    for (const action of this.candidates(belief, status)) {
      next.set(status);
      markDone(instance, next, action);
      let cost = stepCost(instance, status, action);
      for (const successor of this.after(action, belief)) {
        if (cost >= best) break;
        if (successor.weight > 0) cost += successor.weight * this.greedy(successor.belief, next, options.coarse, 1).cost;
      }
      if (cost >= best) continue;
      best = cost;
      chosen = action;
    }
    return chosen;
  }

  private candidates(belief: Float64Array, status: Uint8Array): number[] {
    const { instance } = this;
    const next = new Uint8Array(instance.statusLength);
    const rated: { action: number; estimate: number }[] = [];
    const checks = this.oneStep.shortlist(belief, status);
    for (const check of this.oneStep.listed.slice(0, checks)) {
      rated.push({ action: check, estimate: this.oneStep.oneStep(belief, status, check, Number.POSITIVE_INFINITY) });
    }
    for (let action = instance.checks; action < instance.handOver; action++) {
      if (!isOpen(instance, status, action)) continue;
      if (fixedWeight(instance, belief, action - instance.checks) < 1e-9) continue;
      next.set(status);
      markDone(instance, next, action);
      const [failed] = this.after(action, belief);
      const rest = failed && failed.weight > 0 ? failed.weight * this.oneStep.sequencer.cost(failed.belief, next, 1) : 0;
      rated.push({ action, estimate: stepCost(instance, status, action) + rest });
    }
    rated.sort((a, b) => a.estimate - b.estimate || a.action - b.action);
    return rated.slice(0, this.options.candidates).map(({ action }) => action);
  }

  /** The states after each outcome of a check; for a repair, the one in which the fault is still there. */
  private after(action: number, belief: Float64Array): Successor[] {
    const { instance } = this;
    const count = action < instance.checks ? (instance.outcomes[action] as number) : 1;
    return Array.from({ length: count }, (_, outcome) => {
      const posterior = belief.slice();
      if (action < instance.checks) updateByOutcome(instance, belief, action, outcome, posterior);
      else removeFixed(instance, posterior, action - instance.checks);
      return { weight: scale(posterior), belief: posterior };
    });
  }
}
