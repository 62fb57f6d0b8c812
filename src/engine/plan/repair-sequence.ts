import { fixedWeight, type Instance, isOpen, markDone, removeFixed, stepCost } from './instance.ts';

/**
 * The base policy: repairs by falling chance-per-cost (P/C, Smith's rule with set-ups counted when unpaid), checks only
 * where precedence forces one (its result is not used), stopped at the best of all prefixes by handing over. Evaluating
 * every prefix is exact; the rule "hand over when 1/S beats every p/c" stops too early.
 *
 * One `RepairSequencer` owns the scratch space, so a call allocates nothing.
 */
export class RepairSequencer {
  /** Actions of the last sequence found, in order; the first `length` are to be done before handing over. */
  readonly actions: Int32Array;
  length = 0;
  private performed = 0;
  private readonly instance: Instance;
  private readonly belief: Float64Array;
  private readonly status: Uint8Array;
  private readonly scratch: Uint8Array;
  private readonly pending: Int32Array;

  constructor(instance: Instance) {
    this.instance = instance;
    const room = instance.repairs + instance.checks + 1;
    this.actions = new Int32Array(room);
    this.belief = new Float64Array(instance.hypotheses);
    this.status = new Uint8Array(instance.statusLength);
    this.scratch = new Uint8Array(instance.statusLength);
    this.pending = new Int32Array(room);
  }

  /** Expected cost (unnormalised, as the belief is) of the best prefix; the sequence is left in `actions`. */
  cost(belief: Float64Array, status: Uint8Array, total: number): number {
    const { instance } = this;
    this.belief.set(belief);
    this.status.set(status);
    let left = total;
    let spent = 0;
    let best = total * instance.handOverCost;
    let bestLength = 0;
    this.performed = 0;
    while (left > total * 1e-15) {
      let bestRatio = 0;
      let chosen = -1;
      for (let repair = 0; repair < instance.repairs; repair++) {
        if (this.status[instance.triedAt + repair]) continue;
        const fixed = fixedWeight(instance, this.belief, repair);
        // Below the rounding of the total nothing is left for this repair to fix.
        if (fixed <= total * 1e-13) continue;
        const ratio = fixed / (this.bundleCost(instance.checks + repair) + 1e-12);
        if (ratio > bestRatio) {
          bestRatio = ratio;
          chosen = repair;
        }
      }
      if (chosen < 0) break;
      spent += left * this.perform(instance.checks + chosen);
      left -= removeFixed(instance, this.belief, chosen);
      if (left < 0) left = 0;
      const candidate = spent + left * instance.handOverCost;
      if (candidate < best) {
        best = candidate;
        bestLength = this.performed;
      }
    }
    this.length = bestLength;
    return best;
  }

  /** Cost of a repair with every check that precedence forces before it. */
  private bundleCost(action: number): number {
    const { instance } = this;
    if (isOpen(instance, this.status, action)) return stepCost(instance, this.status, action);
    this.scratch.set(this.status);
    const count = this.closure(action, 0);
    let cost = 0;
    for (let i = 0; i < count; i++) {
      const step = this.pending[i] as number;
      cost += stepCost(instance, this.scratch, step);
      markDone(instance, this.scratch, step);
    }
    return cost + stepCost(instance, this.scratch, action);
  }

  /** Appends the forced checks and the repair to `actions`; returns what they cost. */
  private perform(action: number): number {
    const { instance } = this;
    const count = this.closure(action, 0);
    this.pending[count] = action;
    let cost = 0;
    for (let i = 0; i <= count; i++) {
      const step = this.pending[i] as number;
      cost += stepCost(instance, this.status, step);
      markDone(instance, this.status, step);
      this.actions[this.performed++] = step;
    }
    return cost;
  }

  /** Checks not yet done that must come before `action`, each after its own; returns their number. */
  private closure(action: number, already: number): number {
    const { instance } = this;
    let count = already;
    const after = instance.afterOf[action] as Int32Array;
    for (let i = 0; i < after.length; i++) {
      const check = after[i] as number;
      if (this.status[instance.everAt + check]) continue;
      let listed = false;
      for (let j = 0; j < count; j++) if (this.pending[j] === check) listed = true;
      if (listed) continue;
      count = this.closure(check, count);
      this.pending[count++] = check;
    }
    return count;
  }
}
