import type { Instance } from './instance.ts';
import type { KnownCosts } from './known-cost.ts';
import { type PairCheck, type PairRepair, type PairResource, type PairTable, readValue } from './pair-table.ts';

/** What one pair is charged of one cost in one world. */
interface Entry {
  readonly pair: PairTable;
  readonly isFirst: boolean;
  /** null: handing over. */
  readonly item: PairCheck | PairResource | PairRepair | null;
  readonly budget: number;
  weight: number;
  use: number;
}

/**
 * How each cost is divided among the pairs. For each world and each thing paid there (a check, a set-up, a repair of
 * another hypothesis, handing over) the shares of the pairs add up to its cost, less what the omniscient bound of that
 * world uses already.
 */
export class PairShares {
  private readonly groups: Entry[][];
  private readonly pairs: readonly PairTable[];

  constructor(
    instance: Instance,
    known: KnownCosts,
    pairs: readonly PairTable[],
    belief: Float64Array,
    status: Uint8Array,
    strong: number,
  ) {
    this.pairs = pairs;
    this.groups = makeGroups(instance, known, pairs, belief, status, strong);
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
      for (const entry of group) {
        const cost = (entry.budget * entry.weight) / sum;
        const { item, pair, isFirst } = entry;
        if (item === null) {
          if (isFirst) pair.handOverFirst = cost;
          else pair.handOverSecond = cost;
        } else if ('cost' in item) item.cost = cost;
        else if (isFirst) item.costFirst = cost;
        else item.costSecond = cost;
      }
    }
    for (const pair of this.pairs) pair.clear();
  }

  /** For each entry, how often it is paid (weighted by chance) under its pair's own policy from the start given. */
  measureUse(starts: readonly PairStart[]): void {
    const usage = new Map<PairCheck | PairResource | PairRepair | PairTable, [number, number]>();
    const add = (item: PairCheck | PairResource | PairRepair | PairTable, first: number, second: number): void => {
      const sum = usage.get(item) ?? [0, 0];
      usage.set(item, [sum[0] + first, sum[1] + second]);
    };
    for (const { pair, left, paid, first, second } of starts) follow(pair, left, paid, first, second, (first + second) * 1e-3, add);
    for (const group of this.groups) {
      for (const entry of group) {
        const use = usage.get(entry.item ?? entry.pair) ?? [0, 0];
        entry.use = entry.isFirst ? use[0] : use[1];
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
  strong: number,
): Entry[][] {
  const groups = new Map<string, Entry[]>();
  const add = (name: string, budget: number, entry: Omit<Entry, 'budget' | 'weight' | 'use'>, weight: number): void => {
    if (budget <= 0) return;
    const group = groups.get(name) ?? [];
    if (group.length === 0) groups.set(name, group);
    group.push({ ...entry, budget, weight, use: 0 });
  };
  const reserved = Array.from({ length: instance.hypotheses }, (_, h) => {
    const fixers = (known.fixers[h] ?? []).filter((fixer) => !status[instance.triedAt + fixer.repair]);
    return new Set(fixers.flatMap((fixer) => [...fixer.checks, ...fixer.setUps.map((setUp) => instance.checks + setUp)]));
  });
  const price = (resource: number, h: number): number => {
    if (reserved[h]?.has(resource)) return 0;
    if (resource < instance.checks) return instance.cost[resource] as number;
    return instance.setUpCost[resource - instance.checks] as number;
  };
  for (const pair of pairs) {
    for (const isFirst of [true, false]) {
      const h = isFirst ? pair.first : pair.second;
      const other = belief[isFirst ? pair.second : pair.first] as number;
      const world = { pair, isFirst };
      for (const local of pair.checks) {
        const differ = 1 - affinityOf(local);
        add(`check ${local.check} in ${h}`, price(local.check, h), { ...world, item: local }, Math.sqrt(other) * differ + 1e-6);
      }
      for (const local of pair.resources) {
        const isCheck = local.resource < instance.checks;
        const name = `${isCheck ? 'check' : 'set-up'} ${local.resource} in ${h}`;
        add(name, price(local.resource, h), { ...world, item: local }, Math.sqrt(other) * 0.3 + 1e-6);
      }
      for (const local of isFirst ? pair.repairsSecond : pair.repairsFirst) {
        const action = instance.checks + local.repair;
        add(`repair ${local.repair} in ${h}`, instance.cost[action] as number, { ...world, item: local }, other + 1e-6);
      }
      const slack = instance.handOverCost - known.of(h, status, strong);
      add(`hand over in ${h}`, slack, { ...world, item: null }, Math.sqrt(other) + 1e-6);
    }
  }
  return [...groups.values()];
}

type Add = (item: PairCheck | PairResource | PairRepair | PairTable, first: number, second: number) => void;

function follow(pair: PairTable, left: number, paid: number, first: number, second: number, least: number, add: Add): void {
  const spend = (bits: number, a: number, b: number): void => {
    pair.resources.forEach((resource, s) => {
      if (bits & (1 << s)) add(resource, a, b);
    });
  };
  const stop = pair.stopCosts(paid);
  const options = [second * stop.repairFirst, first * stop.repairSecond, first * pair.handOverFirst + second * pair.handOverSecond];
  let best = Math.min(...options);
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
    if (cost < best) {
      best = cost;
      chosen = c;
    }
  }
  if (chosen < 0) {
    const at = options.indexOf(Math.min(...options));
    if (at === 2) add(pair, first, second);
    else if (at === 0) {
      for (const r of pair.repairsFirst.slice(0, 1)) {
        add(r, 0, second);
        spend(r.resources & ~paid, 0, second);
      }
    } else {
      for (const r of pair.repairsSecond.slice(0, 1)) {
        add(r, first, 0);
        spend(r.resources & ~paid, first, 0);
      }
    }
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

function affinityOf(check: PairCheck): number {
  let affinity = 0;
  for (let o = 0; o < check.likelihoodFirst.length; o++) {
    affinity += Math.sqrt((check.likelihoodFirst[o] as number) * (check.likelihoodSecond[o] as number));
  }
  return affinity;
}
