import type { Instance } from './instance.ts';
import type { Fixer, KnownCosts } from './known-cost.ts';
import { isFirstUse, type PairCharge, type PairStart, type PairTable } from './pair-table.ts';
import { measureUse } from './pair-use.ts';

/** What one pair is charged of one cost in one world. */
interface Entry {
  readonly item: PairCharge;
  readonly isFirst: boolean;
  readonly budget: number;
  weight: number;
  use: number;
}

/**
 * How each cost is divided among the pairs. For each world and each thing paid there (a check, a set-up, a repair that
 * fixes nothing there, a repair or handing over that ends the job for more than it would have to cost) the shares of the
 * pairs add up to its cost, less what someone who knows the world pays already.
 */
export class PairShares {
  private readonly groups: Entry[][];
  private readonly pairs: readonly PairTable[];

  constructor(instance: Instance, known: KnownCosts, pairs: readonly PairTable[], belief: Float64Array, status: Uint8Array, price: Price) {
    this.pairs = pairs;
    this.groups = makeGroups(instance, known, pairs, belief, status, price);
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

  /** For each entry, how much the bound of its pair rises with it: how often it is paid, weighted by chance. */
  measureUse(starts: readonly PairStart[]): void {
    const usage = new Map<PairCharge, [number, number]>();
    const add = (item: PairCharge, first: number, second: number): void => {
      const sum = usage.get(item);
      if (sum) {
        sum[0] += first;
        sum[1] += second;
      } else usage.set(item, [first, second]);
    };
    for (const start of starts) measureUse(start, add);
    for (const group of this.groups) {
      for (const entry of group) {
        const use = usage.get(entry.item);
        entry.use = use ? (entry.isFirst ? use[0] : use[1]) : 0;
      }
    }
  }
}

function makeGroups(
  instance: Instance,
  known: KnownCosts,
  pairs: readonly PairTable[],
  belief: Float64Array,
  status: Uint8Array,
  price: Price,
): Entry[][] {
  const groups = new Map<string, Entry[]>();
  const add = (name: string, budget: number, entry: Pick<Entry, 'item' | 'isFirst'>, weight: number): void => {
    if (budget <= 0) return;
    const group = groups.get(name) ?? [];
    if (group.length === 0) groups.set(name, group);
    group.push({ ...entry, budget, weight, use: 0 });
  };
  const least = known.fixers.map((_, h) => known.of(h, status));
  for (const pair of pairs) {
    for (const isFirst of [true, false]) {
      const h = isFirst ? pair.first : pair.second;
      const other = belief[isFirst ? pair.second : pair.first] as number;
      pair.checks.forEach(({ members, affinity }, use) => {
        if (!isFirstUse(pair.checks, use)) return;
        for (const item of members) {
          add(`check ${item.check} in ${h}`, price(item.check, h), { item, isFirst }, Math.sqrt(other) * (1 - affinity) + 1e-6);
        }
      });
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

/** What a check or set-up (numbered after the checks) costs beyond what someone who knows the hypothesis pays on the way to its repair. */
export type Price = (resource: number, hypothesis: number) => number;

/** The prices at a status: of what a known hypothesis' own repairs need, someone who knows it pays already. */
export function pricesOf(instance: Instance, known: KnownCosts, status: Uint8Array): Price {
  const reserved = known.fixers.map((fixers) => {
    const open = fixers.filter(({ repair }) => !status[instance.triedAt + repair]);
    return new Set(open.flatMap(({ checks, setUps }: Fixer) => [...checks, ...setUps.map((setUp) => instance.checks + setUp)]));
  });
  return (resource, h) => {
    if (reserved[h]?.has(resource)) return 0;
    if (resource < instance.checks) return instance.cost[resource] as number;
    return instance.setUpCost[resource - instance.checks] as number;
  };
}
