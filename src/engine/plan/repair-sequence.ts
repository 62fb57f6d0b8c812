import { fixedWeight, type Instance, isOpen, markDone, removeFixed, stepCost } from './instance.ts';
import { forcedChecks } from './known-cost.ts';

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
  private readonly ratio: Float64Array;
  /** Forced checks of each repair, each after its own. */
  private readonly forced: readonly (readonly number[])[];
  /** Repairs whose ratio changes once a repair has been done. */
  private readonly touched: readonly Int32Array[];
  private readonly engineMatters: boolean;

  constructor(instance: Instance) {
    this.instance = instance;
    const { checks, repairs } = instance;
    this.actions = new Int32Array(repairs + checks + 1);
    this.belief = new Float64Array(instance.hypotheses);
    this.status = new Uint8Array(instance.statusLength);
    this.scratch = new Uint8Array(instance.statusLength);
    this.ratio = new Float64Array(repairs);
    const all = Array.from({ length: repairs }, (_, repair) => repair);
    this.forced = all.map((repair) => forcedChecks(instance, checks + repair));
    this.touched = touchedBy(instance, this.forced);
    this.engineMatters = all.some((repair) =>
      [...(this.forced[repair] as number[]), checks + repair].some((step) => instance.engineOf[step]),
    );
  }

  /** Expected cost (unnormalised, as the belief is) of the best prefix; the sequence is left in `actions`. */
  cost(belief: Float64Array, status: Uint8Array, total: number): number {
    const { instance, ratio } = this;
    this.belief.set(belief);
    this.status.set(status);
    // Below the rounding of the total nothing is left for a repair to fix.
    const least = total * 1e-13;
    for (let repair = 0; repair < instance.repairs; repair++) this.rate(repair, least);
    let left = total;
    let spent = 0;
    let best = total * instance.handOverCost;
    let bestLength = 0;
    this.performed = 0;
    while (left > total * 1e-15) {
      let bestRatio = 0;
      let chosen = -1;
      for (let repair = 0; repair < ratio.length; repair++) {
        if ((ratio[repair] as number) > bestRatio) {
          bestRatio = ratio[repair] as number;
          chosen = repair;
        }
      }
      // Far below the worth of handing over, the rest is not looked at (the sequence found stays what it costs).
      if (chosen < 0 || bestRatio * instance.handOverCost * 4 < left) break;
      const warm = this.status[instance.warmAt];
      spent += left * this.perform(chosen);
      left = Math.max(0, left - removeFixed(instance, this.belief, chosen));
      if (this.engineMatters && this.status[instance.warmAt] !== warm) {
        for (let repair = 0; repair < instance.repairs; repair++) this.rate(repair, least);
      } else {
        const touched = this.touched[chosen] as Int32Array;
        for (let i = 0; i < touched.length; i++) this.rate(touched[i] as number, least);
      }
      const candidate = spent + left * instance.handOverCost;
      if (candidate < best) {
        best = candidate;
        bestLength = this.performed;
      }
    }
    this.length = bestLength;
    return best;
  }

  private rate(repair: number, least: number): void {
    const { instance } = this;
    let ratio = 0;
    if (!this.status[instance.triedAt + repair]) {
      const fixed = fixedWeight(instance, this.belief, repair);
      if (fixed > least) ratio = fixed / (this.bundleCost(repair) + 1e-12);
    }
    this.ratio[repair] = ratio;
  }

  /** Cost of a repair with every check that precedence forces before it. */
  private bundleCost(repair: number): number {
    const { instance } = this;
    const action = instance.checks + repair;
    if (isOpen(instance, this.status, action)) return stepCost(instance, this.status, action);
    this.scratch.set(this.status);
    let cost = 0;
    for (const check of this.forced[repair] as readonly number[]) {
      if (this.scratch[instance.everAt + check]) continue;
      cost += stepCost(instance, this.scratch, check);
      markDone(instance, this.scratch, check);
    }
    return cost + stepCost(instance, this.scratch, action);
  }

  /** Appends the forced checks and the repair to `actions`; returns what they cost. */
  private perform(repair: number): number {
    const { instance } = this;
    let cost = 0;
    for (const check of this.forced[repair] as readonly number[]) {
      if (!this.status[instance.everAt + check]) cost += this.performStep(check);
    }
    return cost + this.performStep(instance.checks + repair);
  }

  private performStep(step: number): number {
    const cost = stepCost(this.instance, this.status, step);
    markDone(this.instance, this.status, step);
    this.actions[this.performed++] = step;
    return cost;
  }
}

/** Repairs whose ratio each repair changes: by a hypothesis, a set-up or a forced check in common; itself included. */
function touchedBy(instance: Instance, forced: readonly (readonly number[])[]): Int32Array[] {
  const users = new Map<string, number[]>();
  const keysOf = forced.map((checks, repair) => {
    const keys = checks.map((check) => `check ${check}`);
    for (const step of [...checks, instance.checks + repair]) {
      for (const setUp of instance.setUpsOf[step] as Int32Array) keys.push(`set-up ${setUp}`);
    }
    for (let i = instance.fixAt[repair] as number; i < (instance.fixAt[repair + 1] as number); i++) {
      keys.push(`hypothesis ${instance.fixHypothesis[i]}`);
    }
    for (const key of keys) {
      const list = users.get(key);
      if (list) list.push(repair);
      else users.set(key, [repair]);
    }
    return keys;
  });
  return keysOf.map((keys, repair) => Int32Array.from(new Set([repair, ...keys.flatMap((key) => users.get(key) as number[])])).sort());
}
