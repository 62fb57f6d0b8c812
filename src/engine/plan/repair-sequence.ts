import { ANY, COLD, fixedWeight, type Instance, isOpen, markDone, removeFixed, stepCost, WARM } from './instance.ts';
import { forcedChecks, KnownCosts } from './known-cost.ts';

/**
 * The base policy: repairs by falling chance-per-cost (P/C, Smith's rule with set-ups counted when unpaid), checks only
 * where precedence forces one (its result is not used), stopped at the best of all prefixes by handing over. Evaluating
 * every prefix is exact; the rule "hand over when 1/S beats every p/c" stops too early.
 *
 * One `RepairSequencer` owns the scratch space, so a call allocates nothing. What each repair costs depends on the status
 * alone: `prepare` works it out once for all beliefs at a status, and while a sequence is made only the repairs that
 * share a set-up or a hypothesis with the one just made are rated anew.
 */
export class RepairSequencer {
  /** Actions of the last sequence found, in order; the first `length` are to be done before handing over. */
  readonly actions: Int32Array;
  /** What each of `actions` costs where it stands. */
  readonly costs: Float64Array;
  length = 0;
  /** Sequences made so far: a measure of work. */
  made = 0;
  private performed = 0;
  private readonly instance: Instance;
  private readonly belief: Float64Array;
  private readonly start: Uint8Array;
  private readonly status: Uint8Array;
  private readonly scratch: Uint8Array;
  /** By repair: chance of ending the job (as the belief is scaled), and cost without a change of engine state. */
  private readonly chance: Float64Array;
  private readonly price: Float64Array;
  private readonly ratio: Float64Array;
  // What `prepare` leaves.
  private readonly startPrice: Float64Array;
  private readonly startOpen: Int32Array;
  private startCount = 0;
  private readonly startUnpaid: Uint8Array;
  private startWarm = 0;
  private isPlain = true;
  private readonly open: Int32Array;
  private readonly unpaid: Uint8Array;
  /** Forced checks of each repair, each after its own. */
  private readonly forced: readonly (readonly number[])[];
  /** What each hypothesis costs at least, known and with all set-ups paid. */
  private readonly bareCost: Float64Array;
  /** Repairs that can fix each hypothesis, and with what chance. */
  private readonly fixersOf: readonly Int32Array[];
  private readonly chancesOf: readonly Float64Array[];
  private readonly usersOf: readonly Int32Array[];
  /** Repairs whose ratio changes once a repair has been done. */
  private readonly touched: readonly Int32Array[];
  private readonly engineMatters: boolean;

  constructor(instance: Instance) {
    this.instance = instance;
    const { checks, repairs } = instance;
    this.actions = new Int32Array(repairs + checks + 1);
    this.costs = new Float64Array(repairs + checks + 1);
    this.belief = new Float64Array(instance.hypotheses);
    this.start = new Uint8Array(instance.statusLength);
    this.status = new Uint8Array(instance.statusLength);
    this.scratch = new Uint8Array(instance.statusLength);
    this.chance = new Float64Array(repairs);
    this.price = new Float64Array(repairs);
    this.ratio = new Float64Array(repairs);
    this.startPrice = new Float64Array(repairs);
    this.startOpen = new Int32Array(repairs);
    this.startUnpaid = new Uint8Array(instance.setUps);
    this.open = new Int32Array(repairs);
    this.unpaid = new Uint8Array(instance.setUps);
    const all = Array.from({ length: repairs }, (_, repair) => repair);
    this.forced = all.map((repair) => forcedChecks(instance, checks + repair));
    this.touched = touchedBy(instance, this.forced);
    this.engineMatters = all.some((repair) =>
      [...(this.forced[repair] as number[]), checks + repair].some((step) => instance.engineOf[step]),
    );
    const fixers: number[][] = Array.from({ length: instance.hypotheses }, () => []);
    const chances: number[][] = Array.from({ length: instance.hypotheses }, () => []);
    const users: number[][] = Array.from({ length: instance.setUps }, () => []);
    for (const repair of all) {
      for (let i = instance.fixAt[repair] as number; i < (instance.fixAt[repair + 1] as number); i++) {
        const h = instance.fixHypothesis[i] as number;
        (fixers[h] as number[]).push(repair);
        (chances[h] as number[]).push(instance.fixChance[i] as number);
      }
      for (const setUp of instance.setUpsOf[checks + repair] as Int32Array) (users[setUp] as number[]).push(repair);
    }
    const known = new KnownCosts(instance);
    const everything = new Uint8Array(instance.statusLength).fill(1, 0, instance.triedAt).fill(1, instance.paidAt);
    this.bareCost = Float64Array.from({ length: instance.hypotheses }, (_, h) => known.of(h, everything));
    this.fixersOf = fixers.map((list) => Int32Array.from(list));
    this.chancesOf = chances.map((list) => Float64Array.from(list));
    this.usersOf = users.map((list) => Int32Array.from(list));
  }

  /** Expected cost (unnormalised, as the belief is) of the best prefix; the sequence is left in `actions`. */
  cost(belief: Float64Array, status: Uint8Array, total: number): number {
    this.prepare(status);
    return this.costPrepared(belief, total);
  }

  /** Makes ready for beliefs at this status, which must not change before the last of them. */
  prepare(status: Uint8Array): void {
    const { instance } = this;
    this.start.set(status);
    this.isPlain = true;
    this.startCount = 0;
    this.startWarm = status[instance.warmAt] as number;
    for (let setUp = 0; setUp < instance.setUps; setUp++) this.startUnpaid[setUp] = status[instance.paidAt + setUp] ? 0 : 1;
    for (let repair = 0; repair < instance.repairs; repair++) {
      if (status[instance.triedAt + repair]) continue;
      const action = instance.checks + repair;
      this.startOpen[this.startCount++] = repair;
      const forced = this.forced[repair] as readonly number[];
      for (let i = 0; i < forced.length; i++) if (!status[instance.everAt + (forced[i] as number)]) this.isPlain = false;
      let price = instance.cost[action] as number;
      const setUps = instance.setUpsOf[action] as Int32Array;
      for (let i = 0; i < setUps.length; i++) {
        const setUp = setUps[i] as number;
        if (this.startUnpaid[setUp]) price += instance.setUpCost[setUp] as number;
      }
      this.startPrice[repair] = price;
    }
  }

  /** `cost` at the status last prepared. What is certain to cost `enough` or more may come back as any such number. */
  costPrepared(belief: Float64Array, total: number, enough: number = Number.POSITIVE_INFINITY): number {
    this.made++;
    return this.isPlain ? this.plainCost(belief, total, enough) : this.forcedCost(belief, total);
  }

  /** No repair waits for a check. */
  private plainCost(belief: Float64Array, total: number, enough: number): number {
    const { instance, chance, price, ratio, open, unpaid } = this;
    const { fixAt, fixHypothesis, fixChance, checks, handOverCost, setUpCost } = instance;
    const weights = this.belief;
    // Below the rounding of the total nothing is left for a repair to fix.
    const least = total * 1e-13;
    let bare = 0;
    for (let h = 0; h < this.bareCost.length; h++) bare += (belief[h] as number) * (this.bareCost[h] as number);
    if (bare >= enough) return bare;
    let warm = this.startWarm;
    let count = 0;
    // Whether some repair may cost less later, once a set-up is paid or the engine is in its state.
    let mayFall = false;
    for (let i = 0; i < this.startCount; i++) {
      const repair = this.startOpen[i] as number;
      let fixed = 0;
      const end = fixAt[repair + 1] as number;
      for (let f = fixAt[repair] as number; f < end; f++)
        fixed += (belief[fixHypothesis[f] as number] as number) * (fixChance[f] as number);
      if (fixed <= least) {
        // Marks it as closed for the updates below.
        price[repair] = Number.POSITIVE_INFINITY;
        continue;
      }
      chance[repair] = fixed;
      const cost = this.startPrice[repair] as number;
      price[repair] = cost;
      if (cost > (instance.cost[checks + repair] as number) || instance.engineOf[checks + repair] !== ANY) mayFall = true;
      ratio[repair] = fixed / (cost + this.engineCost(repair, warm) + 1e-12);
      open[count++] = repair;
    }
    let isCopied = false;
    let left = total;
    let spent = 0;
    let best = total * handOverCost;
    let bestLength = 0;
    let performed = 0;
    while (count > 0 && left > total * 1e-15) {
      let bestRatio = 0;
      let at = -1;
      for (let i = 0; i < count; i++) {
        const here = ratio[open[i] as number] as number;
        if (here > bestRatio) {
          bestRatio = here;
          at = i;
        }
      }
      // At this rate at best, being rid of all that is left would cost at least left^2 / (2 rate).
      const goal = Math.min(best, enough);
      if (at < 0 || spent + bare >= goal) break;
      const rate = mayFall ? this.fastest(count) : bestRatio;
      if (spent + (left * left) / (2 * rate) >= goal) break;
      const chosen = open[at] as number;
      count--;
      // Kept in ascending order, so that ties go to the lower index.
      for (let i = at; i < count; i++) open[i] = open[i + 1] as number;
      if (!isCopied) {
        weights.set(belief);
        unpaid.set(this.startUnpaid);
        isCopied = true;
      }
      const pays = (price[chosen] as number) + this.engineCost(chosen, warm);
      price[chosen] = Number.POSITIVE_INFINITY;
      spent += left * pays;
      const action = checks + chosen;
      this.costs[performed] = pays;
      this.actions[performed++] = action;
      const engine = instance.engineOf[action] as number;
      const wasWarm = warm;
      if (engine !== ANY) warm = engine === WARM ? 1 : 0;
      const setUps = instance.setUpsOf[action] as Int32Array;
      for (let i = 0; i < setUps.length; i++) {
        const setUp = setUps[i] as number;
        if (!unpaid[setUp]) continue;
        unpaid[setUp] = 0;
        const users = this.usersOf[setUp] as Int32Array;
        for (let u = 0; u < users.length; u++) {
          const user = users[u] as number;
          const cheaper = (price[user] as number) - (setUpCost[setUp] as number);
          price[user] = cheaper;
          ratio[user] = (chance[user] as number) / (cheaper + this.engineCost(user, warm) + 1e-12);
        }
      }
      const end = fixAt[chosen + 1] as number;
      let gone = 0;
      for (let f = fixAt[chosen] as number; f < end; f++) {
        const h = fixHypothesis[f] as number;
        const fixed = (weights[h] as number) * (fixChance[f] as number);
        if (fixed <= 0) continue;
        gone += fixed;
        bare -= fixed * (this.bareCost[h] as number);
        weights[h] = (fixChance[f] as number) >= 1 ? 0 : (weights[h] as number) - fixed;
        const fixers = this.fixersOf[h] as Int32Array;
        const chances = this.chancesOf[h] as Float64Array;
        for (let u = 0; u < fixers.length; u++) {
          const fixer = fixers[u] as number;
          const less = (chance[fixer] as number) - fixed * (chances[u] as number);
          chance[fixer] = less;
          ratio[fixer] = less <= least ? 0 : less / ((price[fixer] as number) + this.engineCost(fixer, warm) + 1e-12);
        }
      }
      if (warm !== wasWarm) {
        for (let i = 0; i < count; i++) {
          const repair = open[i] as number;
          if (instance.engineOf[checks + repair] === ANY) continue;
          const fixed = chance[repair] as number;
          ratio[repair] = fixed <= least ? 0 : fixed / ((price[repair] as number) + this.engineCost(repair, warm) + 1e-12);
        }
      }
      left = Math.max(0, left - gone);
      const candidate = spent + left * handOverCost;
      if (candidate < best) {
        best = candidate;
        bestLength = performed;
      }
    }
    this.length = bestLength;
    return best;
  }

  /** The highest chance per cost that any repair still open can come to: no chance rises, and no repair costs less than its own cost. */
  private fastest(count: number): number {
    const { instance, chance, open } = this;
    let most = 0;
    for (let i = 0; i < count; i++) {
      const repair = open[i] as number;
      const rate = (chance[repair] as number) / ((instance.cost[instance.checks + repair] as number) + 1e-12);
      if (rate > most) most = rate;
    }
    return most;
  }

  /** Cost of the change of engine state that a repair asks for. */
  private engineCost(repair: number, warm: number): number {
    const engine = this.instance.engineOf[this.instance.checks + repair] as number;
    if (engine === ANY) return 0;
    if (engine === COLD) return warm ? this.instance.coolDownCost : 0;
    return warm ? 0 : this.instance.warmUpCost;
  }

  /** Some repair waits for a check that is not done: whatever may change is rated anew after each step. */
  private forcedCost(belief: Float64Array, total: number): number {
    const { instance, open, ratio } = this;
    this.belief.set(belief);
    this.status.set(this.start);
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
      let count = 0;
      for (let repair = 0; repair < ratio.length; repair++) {
        if ((ratio[repair] as number) > 0) open[count++] = repair;
        if ((ratio[repair] as number) > bestRatio) {
          bestRatio = ratio[repair] as number;
          chosen = repair;
        }
      }
      if (chosen < 0 || spent + (left * left) / (2 * this.fastest(count)) >= best) break;
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
      this.chance[repair] = fixed;
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
    this.costs[this.performed] = cost;
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
