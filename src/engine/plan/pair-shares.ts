import type { Instance } from './instance.ts';
import type { Fixer, KnownCosts } from './known-cost.ts';
import { type PairCharge, type PairCheck, type PairStop, type PairTable, readValue } from './pair-table.ts';

/** What one pair is charged of one cost in one world. */
interface Entry {
  readonly item: PairCharge;
  readonly isFirst: boolean;
  readonly budget: number;
  weight: number;
  use: number;
}

/** Below this share of the pair's weight a branch is not followed when use is measured. */
const LEAST_FOLLOWED = 2e-3;

/**
 * How each cost is divided among the pairs. For each world and each thing paid there (a check, a set-up, a repair that
 * fixes nothing there, a repair or handing over that ends the job for more than it would have to cost) the shares of the
 * pairs add up to its cost, less what someone who knows the world pays already.
 */
export class PairShares {
  private readonly groups: Entry[][];
  private readonly pairs: readonly PairTable[];

  constructor(instance: Instance, known: KnownCosts, pairs: readonly PairTable[], belief: Float64Array, status: Uint8Array) {
    this.pairs = pairs;
    this.groups = makeGroups(instance, known, pairs, belief, status);
    this.charge();
  }

  weights(): number[][] {
    return this.groups.map((group) => group.map((entry) => entry.weight));
  }

  setWeights(weights: readonly (readonly number[])[]): void {
    this.groups.forEach((group, g) => {
      group.forEach((entry, e) => {
        entry.weight = weights[g]?.[e] ?? entry.weight;
      });
    });
    this.charge();
  }

  /** Moves every cost towards the pairs that use it more than the others do (exponentiated gradient). */
  move(speed: number): void {
    for (const group of this.groups) {
      let sum = 0;
      for (const entry of group) sum += entry.weight;
      let mean = 0;
      for (const entry of group) mean += (entry.use * entry.weight) / sum;
      if (mean <= 0) continue;
      for (const entry of group) {
        const step = Math.max(-2, Math.min(2, speed * (entry.use / mean - 1)));
        entry.weight = (entry.weight / sum) * Math.exp(step) + 1e-9;
      }
    }
    this.charge();
  }

  /** Divides each cost by the entries' weights and writes it into the pairs. */
  private charge(): void {
    for (const group of this.groups) {
      let sum = 0;
      for (const entry of group) sum += entry.weight;
      for (const { item, isFirst, budget, weight } of group) {
        if (isFirst) item.costFirst = (budget * weight) / sum;
        else item.costSecond = (budget * weight) / sum;
      }
    }
    for (const pair of this.pairs) pair.clear();
  }

  /** For each entry, how often it is paid (weighted by chance) under its pair's own policy from the start given. */
  measureUse(starts: readonly PairStart[]): void {
    const usage = new Map<PairCharge, [number, number]>();
    const add = (item: PairCharge, first: number, second: number): void => {
      const sum = usage.get(item);
      if (sum) {
        sum[0] += first;
        sum[1] += second;
      } else usage.set(item, [first, second]);
    };
    for (const { pair, left, paid, first, second } of starts) {
      follow(pair, left, paid, first, second, (first + second) * LEAST_FOLLOWED, add);
    }
    for (const group of this.groups) {
      for (const entry of group) {
        const use = usage.get(entry.item);
        entry.use = use ? (entry.isFirst ? use[0] : use[1]) : 0;
      }
    }
  }
}

/** Where the problem of a pair starts: checks left and resources paid (bits), and the two weights. */
export interface PairStart {
  readonly pair: PairTable;
  readonly left: number;
  readonly paid: number;
  readonly first: number;
  readonly second: number;
}

function makeGroups(
  instance: Instance,
  known: KnownCosts,
  pairs: readonly PairTable[],
  belief: Float64Array,
  status: Uint8Array,
): Entry[][] {
  const groups = new Map<string, Entry[]>();
  const add = (name: string, budget: number, entry: Pick<Entry, 'item' | 'isFirst'>, weight: number): void => {
    if (budget <= 0) return;
    const group = groups.get(name) ?? [];
    if (group.length === 0) groups.set(name, group);
    group.push({ ...entry, budget, weight, use: 0 });
  };
  // What someone who knows the hypothesis may pay for on the way to its repair.
  const reserved = known.fixers.map((fixers) => {
    const open = fixers.filter(({ repair }) => !status[instance.triedAt + repair]);
    return new Set(open.flatMap(({ checks, setUps }: Fixer) => [...checks, ...setUps.map((setUp) => instance.checks + setUp)]));
  });
  const least = reserved.map((_, h) => known.of(h, status));
  const price = (resource: number, h: number): number => {
    if (reserved[h]?.has(resource)) return 0;
    if (resource < instance.checks) return instance.cost[resource] as number;
    return instance.setUpCost[resource - instance.checks] as number;
  };
  for (const pair of pairs) {
    for (const isFirst of [true, false]) {
      const h = isFirst ? pair.first : pair.second;
      const other = belief[isFirst ? pair.second : pair.first] as number;
      for (const item of pair.checks) {
        add(`check ${item.check} in ${h}`, price(item.check, h), { item, isFirst }, Math.sqrt(other) * (1 - item.affinity) + 1e-6);
      }
      for (const item of pair.resources) {
        const isCheck = item.resource < instance.checks;
        const name = isCheck ? `check ${item.resource} in ${h}` : `set-up ${item.resource - instance.checks} in ${h}`;
        add(name, price(item.resource, h), { item, isFirst }, Math.sqrt(other) * 0.3 + 1e-6);
      }
      for (const item of pair.stops) {
        const fixes = isFirst ? item.fixesFirst : item.fixesSecond;
        // A way out may be dearer than the cheapest one by so much; what does not fix is all waste.
        const budget = fixes
          ? known.ending(h, item.repair, status) - (least[h] as number)
          : (instance.cost[instance.checks + item.repair] as number);
        add(`stop ${item.repair} in ${h}`, budget, { item, isFirst }, (fixes ? Math.sqrt(other) : other) + 1e-6);
      }
    }
  }
  return [...groups.values()];
}

type Add = (item: PairCharge, first: number, second: number) => void;

/** Follows the pair's own policy and adds up what it pays; what is given away counts for nothing here. */
function follow(pair: PairTable, left: number, paid: number, first: number, second: number, least: number, add: Add): void {
  const spend = (bits: number, a: number, b: number): void => {
    pair.resources.forEach((resource, s) => {
      if (bits & (1 << s)) add(resource, a, b);
    });
  };
  let best = Number.POSITIVE_INFINITY;
  let stop = pair.stops[0] as PairStop;
  for (const option of pair.stops) {
    const cost = first * pair.stopCost(option, paid, true) + second * pair.stopCost(option, paid, false);
    if (cost >= best) continue;
    best = cost;
    stop = option;
  }
  let chosen = -1;
  for (let c = 0; first + second > least && c < pair.checks.length; c++) {
    if (!pair.mayDo(c, left)) continue;
    const check = pair.checks[c] as PairCheck;
    const unpaid = check.resources & ~paid;
    let cost = first * (check.costFirst + pair.resourceCost(unpaid, true)) + second * (check.costSecond + pair.resourceCost(unpaid, false));
    const after = pair.values(left & ~(1 << c), paid | check.resources);
    for (let o = 0; o < check.likelihoodFirst.length && cost < best; o++) {
      const a = first * (check.likelihoodFirst[o] as number);
      const b = second * (check.likelihoodSecond[o] as number);
      if (a > 0 && b > 0) cost += readValue(after, a, b, Math.log(a), Math.log(b));
    }
    if (cost >= best) continue;
    best = cost;
    chosen = c;
  }
  if (chosen < 0) {
    add(stop, first, second);
    spend(stop.resources & ~paid, stop.fixesFirst ? 0 : first, stop.fixesSecond ? 0 : second);
    return;
  }
  const check = pair.checks[chosen] as PairCheck;
  add(check, first, second);
  spend(check.resources & ~paid, first, second);
  for (let o = 0; o < check.likelihoodFirst.length; o++) {
    const a = first * (check.likelihoodFirst[o] as number);
    const b = second * (check.likelihoodSecond[o] as number);
    if (a > 0 && b > 0) follow(pair, left & ~(1 << chosen), paid | check.resources, a, b, least, add);
  }
}
