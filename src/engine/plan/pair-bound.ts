import type { Instance } from './instance.ts';
import { forcedChecks, KnownCosts } from './known-cost.ts';
import { type PairCheck, type PairRepair, type PairResource, PairTable, readValue } from './pair-table.ts';

const NONE = new Int32Array(0);

/** A repair that fixes a hypothesis with at least this chance ends the pair problems of that hypothesis. */
const STRONG = 0.7;

/**
 * A lower bound by splitting costs over pairs of hypotheses.
 *
 * In the world where i is true, whatever an action costs is divided among the omniscient problem of i and the pairs
 * {i, j}; each part is then solved on its own, and the parts add up to no more than any policy pays (cost partitioning;
 * a Lagrangian relaxation of "all pairs follow the same policy"). A pair pays its shares for the checks that tell i
 * from j until it stops: trying j's repair in the world of i is waste and belongs to this pair alone. With no checks the
 * pairs give exactly Smith's optimum, the sum over pairs of min(p_i c_j, p_j c_i). Shares are tuned by `tune`.
 */
export class PairBound {
  readonly pairs: PairTable[] = [];
  private readonly instance: Instance;
  private readonly known: KnownCosts;
  private readonly entries: Entry[][] = [];
  /** Copies of each check still open at the status prepared (repeats, and readings that a repair may spoil). */
  private readonly copies: Int32Array;
  private readonly strongOf: number[][] = [];
  private readonly weakOf: { repair: number; chance: number }[][] = [];
  private readonly hasSpoils: boolean;
  // What `prepare` leaves for `value`.
  private readonly single: Float64Array;
  private readonly factor: Float64Array;
  private readonly tables: (Float64Array | null)[] = [];
  private readonly logs: Float64Array;
  private readonly hypothesesOf: Int32Array[] = [];
  private readonly pairsOf: Int32Array[] = [];
  // What `prepareAfter` changed.
  private undoPair = new Int32Array(0);
  private readonly undoTable: (Float64Array | null)[] = [];
  private readonly undoHypothesis: Int32Array;
  private readonly undoSingle: Float64Array;
  private readonly undoFactor: Float64Array;
  private readonly undoCopies: Int32Array;
  private undoCounted: Int32Array = NONE;
  private readonly countsOf: Int32Array[] = [];
  private undoPairs = 0;
  private undoHypotheses = 0;
  private readonly scaled: Float64Array;

  constructor(instance: Instance, belief: Float64Array, status: Uint8Array, mostChecks: number) {
    this.instance = instance;
    this.known = new KnownCosts(instance);
    const n = instance.hypotheses;
    this.single = new Float64Array(n);
    this.factor = new Float64Array(n);
    this.logs = new Float64Array(n);
    this.undoCopies = new Int32Array(instance.checks);
    this.undoHypothesis = new Int32Array(n);
    this.undoSingle = new Float64Array(n);
    this.undoFactor = new Float64Array(n);
    this.scaled = new Float64Array(n);
    this.hasSpoils = instance.spoils.some((list) => list.length > 0);
    this.copies = Int32Array.from({ length: instance.checks }, (_, check) => this.copiesLeft(check, status));
    for (let h = 0; h < n; h++) {
      const fixers = (this.known.fixers[h] ?? []).filter((fixer) => !status[instance.triedAt + fixer.repair]);
      this.strongOf.push(fixers.filter((fixer) => fixer.chance >= STRONG).map((fixer) => fixer.repair));
      this.weakOf.push(fixers.filter((fixer) => fixer.chance < STRONG).map(({ repair, chance }) => ({ repair, chance })));
    }
    for (let i = 0; i < n; i++) {
      for (let j = i + 1; j < n; j++) {
        if (!(belief[i] as number) || !(belief[j] as number)) continue;
        const pair = this.makePair(i, j, status, mostChecks);
        if (pair) this.pairs.push(pair);
      }
    }
    this.makeEntries(belief, status);
    this.makeTouches();
    this.share();
  }

  private copiesLeft(check: number, status: Uint8Array): number {
    const { instance } = this;
    let copies = (instance.allowed[check] as number) - (status[check] as number);
    if (this.hasSpoils) {
      for (let repair = 0; repair < instance.repairs; repair++) {
        if (!status[instance.triedAt + repair] && (instance.spoils[repair] as Int32Array).includes(check)) {
          copies += instance.allowed[check] as number;
        }
      }
    }
    return copies;
  }

  private fixes(repair: number, hypothesis: number): boolean {
    return (this.known.fixers[hypothesis] ?? []).some((fixer) => fixer.repair === repair);
  }

  private makePair(first: number, second: number, status: Uint8Array, mostChecks: number): PairTable | null {
    const { instance } = this;
    const strongFirst = this.strongOf[first] as number[];
    const strongSecond = this.strongOf[second] as number[];
    if (strongFirst.length + strongSecond.length === 0) return null;
    if (strongFirst.some((r) => this.fixes(r, second)) || strongSecond.some((r) => this.fixes(r, first))) return null;
    const n = instance.hypotheses;
    const informative: { check: number; affinity: number }[] = [];
    for (let check = 0; check < instance.checks; check++) {
      if ((this.copies[check] as number) <= 0) continue;
      let affinity = 0;
      const at = instance.likelihoodAt[check] as number;
      for (let o = 0; o < (instance.outcomes[check] as number); o++) {
        affinity += Math.sqrt((instance.likelihood[at + o * n + first] as number) * (instance.likelihood[at + o * n + second] as number));
      }
      for (let copy = 0; affinity < 1 - 1e-9 && copy < (this.copies[check] as number); copy++) informative.push({ check, affinity });
    }
    informative.sort((a, b) => a.affinity - b.affinity || a.check - b.check);
    const row = (check: number, h: number) =>
      Float64Array.from(
        { length: instance.outcomes[check] as number },
        (_, o) => instance.likelihood[(instance.likelihoodAt[check] as number) + o * n + h] as number,
      );
    const make = ({ check }: { check: number }): PairCheck => ({
      check,
      costFirst: 0,
      costSecond: 0,
      needs: 0,
      resources: 0,
      likelihoodFirst: row(check, first),
      likelihoodSecond: row(check, second),
    });
    const checks = informative.slice(0, mostChecks).map(make);
    const free = informative.slice(mostChecks).map(make);
    const resources: PairResource[] = [];
    const resourceBit = (resource: number): number => {
      let at = resources.findIndex((known) => known.resource === resource);
      if (at < 0) at = resources.push({ resource, costFirst: 0, costSecond: 0 }) - 1;
      return at < 14 ? 1 << at : 0;
    };
    const bitsOf = (action: number, forced: readonly number[]): number => {
      let bits = 0;
      for (const check of forced) {
        if (!status[instance.everAt + check] && !checks.some((local) => local.check === check)) bits |= resourceBit(check);
      }
      for (const step of [action, ...forced]) {
        for (const setUp of instance.setUpsOf[step] as Int32Array) {
          if (!status[instance.paidAt + setUp]) bits |= resourceBit(instance.checks + setUp);
        }
      }
      return bits;
    };
    checks.forEach((local, index) => {
      const forced = forcedChecks(instance, local.check);
      local.resources = bitsOf(local.check, forced);
      for (let other = 0; other < checks.length; other++) {
        const before = (checks[other] as PairCheck).check;
        const isFirstCopy = checks.findIndex((known) => known.check === before) === other;
        if (isFirstCopy && forced.includes(before) && !status[instance.everAt + before]) local.needs |= 1 << other;
        if (before === local.check && other < index) local.needs |= 1 << other;
      }
    });
    const repair = (r: number): PairRepair => {
      const action = instance.checks + r;
      return { repair: r, cost: 0, resources: bitsOf(action, forcedChecks(instance, action)) };
    };
    const sides = { repairsFirst: strongFirst.map(repair), repairsSecond: strongSecond.map(repair) };
    resources.length = Math.min(resources.length, 14);
    return new PairTable(first, second, { checks, free, resources, ...sides });
  }

  /** One list of entries for each thing that is paid in one world: their shares add up to its cost. */
  private makeEntries(belief: Float64Array, status: Uint8Array): void {
    const { instance } = this;
    const groups = new Map<string, Entry[]>();
    const add = (name: string, budget: number, entry: Omit<Entry, 'budget' | 'weight' | 'use'>, weight: number): void => {
      if (budget <= 0) return;
      const group = groups.get(name) ?? [];
      if (group.length === 0) groups.set(name, group);
      group.push({ ...entry, budget, weight, use: 0 });
    };
    const reserved = Array.from({ length: instance.hypotheses }, (_, h) => {
      const fixers = (this.known.fixers[h] ?? []).filter((fixer) => !status[instance.triedAt + fixer.repair]);
      return new Set(fixers.flatMap((fixer) => [...fixer.checks, ...fixer.setUps.map((setUp) => instance.checks + setUp)]));
    });
    const price = (resource: number, h: number): number => {
      if (reserved[h]?.has(resource)) return 0;
      if (resource < instance.checks) return instance.cost[resource] as number;
      return instance.setUpCost[resource - instance.checks] as number;
    };
    for (const pair of this.pairs) {
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
        const slack = instance.handOverCost - this.known.of(h, status, STRONG);
        add(`hand over in ${h}`, slack, { ...world, item: null }, Math.sqrt(other) + 1e-6);
      }
    }
    this.entries.push(...groups.values());
  }

  /** Divides each cost by the entries' weights and writes it into the pairs. */
  private share(): void {
    for (const group of this.entries) {
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

  /** Makes ready for beliefs at this status. */
  prepare(status: Uint8Array): void {
    for (let check = 0; check < this.instance.checks; check++) this.copies[check] = this.copiesLeft(check, status);
    for (let h = 0; h < this.instance.hypotheses; h++) this.prepareHypothesis(h, status);
    for (let p = 0; p < this.pairs.length; p++) this.tables[p] = this.tableOf(p, status);
    this.undoPairs = 0;
    this.undoHypotheses = 0;
    this.undoCounted = NONE;
  }

  /** Makes ready for the status that `action` leads to from the one last prepared; `restore` goes back. */
  prepareAfter(action: number, status: Uint8Array): void {
    const counted = this.countsOf[action] as Int32Array;
    for (let i = 0; i < counted.length; i++) {
      const check = counted[i] as number;
      this.undoCopies[i] = this.copies[check] as number;
      this.copies[check] = this.copiesLeft(check, status);
    }
    this.undoCounted = counted;
    const hypotheses = this.hypothesesOf[action] as Int32Array;
    for (let i = 0; i < hypotheses.length; i++) {
      const h = hypotheses[i] as number;
      this.undoHypothesis[i] = h;
      this.undoSingle[i] = this.single[h] as number;
      this.undoFactor[i] = this.factor[h] as number;
      this.prepareHypothesis(h, status);
    }
    this.undoHypotheses = hypotheses.length;
    const pairs = this.pairsOf[action] as Int32Array;
    for (let i = 0; i < pairs.length; i++) {
      const p = pairs[i] as number;
      this.undoPair[i] = p;
      this.undoTable[i] = this.tables[p] as Float64Array | null;
      this.tables[p] = this.tableOf(p, status);
    }
    this.undoPairs = pairs.length;
  }

  restore(): void {
    for (let i = 0; i < this.undoCounted.length; i++) this.copies[this.undoCounted[i] as number] = this.undoCopies[i] as number;
    this.undoCounted = NONE;
    for (let i = 0; i < this.undoHypotheses; i++) {
      const h = this.undoHypothesis[i] as number;
      this.single[h] = this.undoSingle[i] as number;
      this.factor[h] = this.undoFactor[i] as number;
    }
    for (let i = 0; i < this.undoPairs; i++) this.tables[this.undoPair[i] as number] = this.undoTable[i] as Float64Array | null;
    this.undoPairs = 0;
    this.undoHypotheses = 0;
  }

  private prepareHypothesis(h: number, status: Uint8Array): void {
    const { triedAt } = this.instance;
    this.single[h] = this.known.of(h, status);
    let factor = 1;
    const strong = this.strongOf[h] as number[];
    for (let i = 0; i < strong.length; i++) if (status[triedAt + (strong[i] as number)]) factor = 0;
    const weak = this.weakOf[h] as { repair: number; chance: number }[];
    for (let i = 0; i < weak.length; i++) {
      const fixer = weak[i] as { repair: number; chance: number };
      if (!status[triedAt + fixer.repair]) factor *= 1 - fixer.chance;
    }
    this.factor[h] = factor;
  }

  private tableOf(p: number, status: Uint8Array): Float64Array | null {
    const pair = this.pairs[p] as PairTable;
    if (this.factor[pair.first] === 0 || this.factor[pair.second] === 0) return null;
    return pair.values(this.checksLeft(pair), this.resourcesPaid(pair, status));
  }

  /** Which hypotheses and pairs each action touches: only these are looked up again after it. */
  private makeTouches(): void {
    const { instance, known } = this;
    for (let action = 0; action < instance.handOver; action++) {
      const setUps = instance.setUpsOf[action] as Int32Array;
      const repair = action - instance.checks;
      const hypotheses: number[] = [];
      for (let h = 0; h < instance.hypotheses; h++) {
        const touched = (known.fixers[h] ?? []).some(
          (fixer) => fixer.repair === repair || fixer.checks.includes(action) || fixer.setUps.some((setUp) => setUps.includes(setUp)),
        );
        if (touched) hypotheses.push(h);
      }
      const spoiled = repair >= 0 ? (instance.spoils[repair] as Int32Array) : new Int32Array(0);
      const pairs: number[] = [];
      this.pairs.forEach((pair, p) => {
        const ends = repair >= 0 && (this.fixes(repair, pair.first) || this.fixes(repair, pair.second));
        const told = pair.checks.some(({ check }) => check === action || spoiled.includes(check));
        const pays = pair.resources.some(({ resource }) =>
          resource < instance.checks ? resource === action : setUps.includes(resource - instance.checks),
        );
        if (ends || told || pays) pairs.push(p);
      });
      this.countsOf.push(action < instance.checks ? Int32Array.of(action) : Int32Array.from(new Set([...spoiled])));
      this.hypothesesOf.push(Int32Array.from(hypotheses));
      this.pairsOf.push(Int32Array.from(pairs));
    }
    this.undoPair = new Int32Array(this.pairs.length);
  }

  private checksLeft(pair: PairTable): number {
    let left = 0;
    let run = 0;
    for (let c = pair.checks.length - 1; c >= 0; c--) {
      const { check } = pair.checks[c] as PairCheck;
      // Copies of a check stand side by side; the last ones are those that are left.
      run = c + 1 < pair.checks.length && (pair.checks[c + 1] as PairCheck).check === check ? run + 1 : 1;
      if (run <= (this.copies[check] as number)) left |= 1 << c;
    }
    return left;
  }

  private resourcesPaid(pair: PairTable, status: Uint8Array): number {
    const { instance } = this;
    let paid = 0;
    for (let s = 0; s < pair.resources.length; s++) {
      const { resource } = pair.resources[s] as PairResource;
      const done = resource < instance.checks ? status[instance.everAt + resource] : status[instance.paidAt + resource - instance.checks];
      if (done) paid |= 1 << s;
    }
    return paid;
  }

  /** The bound at a belief (any scale) and the status last prepared. */
  value(belief: Float64Array): number {
    const n = this.instance.hypotheses;
    let bound = 0;
    for (let h = 0; h < n; h++) {
      const weight = belief[h] as number;
      bound += weight * (this.single[h] as number);
      const scaled = weight * (this.factor[h] as number);
      this.scaled[h] = scaled;
      this.logs[h] = scaled > 0 ? Math.log(scaled) : 0;
    }
    for (let p = 0; p < this.pairs.length; p++) {
      const values = this.tables[p];
      if (!values) continue;
      const pair = this.pairs[p] as PairTable;
      const first = this.scaled[pair.first] as number;
      const second = this.scaled[pair.second] as number;
      if (first > 0 && second > 0) {
        bound += readValue(values, first, second, this.logs[pair.first] as number, this.logs[pair.second] as number);
      }
    }
    return bound;
  }

  /** Moves shares to the pairs that use what they pay for, from this belief and status; returns the best bound seen. */
  tune(belief: Float64Array, status: Uint8Array, rounds: number): number {
    this.prepare(status);
    let best = this.value(belief);
    let kept = this.entries.map((group) => group.map((entry) => entry.weight));
    for (let round = 0; round < rounds; round++) {
      this.measureUse(belief, status);
      const speed = 1.5 / Math.sqrt(1 + round);
      for (const group of this.entries) {
        let sum = 0;
        for (const entry of group) sum += entry.weight;
        let mean = 0;
        for (const entry of group) mean += (entry.use * entry.weight) / sum;
        if (mean <= 0) continue;
        for (const entry of group) {
          entry.weight = (entry.weight / sum) * Math.exp(Math.max(-2, Math.min(2, speed * (entry.use / mean - 1)))) + 1e-9;
        }
      }
      this.share();
      this.prepare(status);
      const bound = this.value(belief);
      if (bound > best) {
        best = bound;
        kept = this.entries.map((group) => group.map((entry) => entry.weight));
      }
    }
    this.entries.forEach((group, g) => {
      group.forEach((entry, e) => {
        entry.weight = kept[g]?.[e] ?? entry.weight;
      });
    });
    this.share();
    return best;
  }

  /** For each entry, how much is paid of it (as a multiple of its share, weighted by chance) under the pair's own policy. */
  private measureUse(belief: Float64Array, status: Uint8Array): void {
    const usage = new Map<PairCheck | PairResource | PairRepair | PairTable, [number, number]>();
    const add = (item: PairCheck | PairResource | PairRepair | PairTable, first: number, second: number): void => {
      const sum = usage.get(item) ?? [0, 0];
      usage.set(item, [sum[0] + first, sum[1] + second]);
    };
    for (const pair of this.pairs) {
      const first = (belief[pair.first] as number) * (this.factor[pair.first] as number);
      const second = (belief[pair.second] as number) * (this.factor[pair.second] as number);
      if (first > 0 && second > 0)
        follow(pair, this.checksLeft(pair), this.resourcesPaid(pair, status), first, second, (first + second) * 1e-3, add);
    }
    for (const group of this.entries) {
      for (const entry of group) {
        const use = usage.get(entry.item ?? entry.pair) ?? [0, 0];
        entry.use = entry.isFirst ? use[0] : use[1];
      }
    }
  }
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

interface Entry {
  readonly pair: PairTable;
  readonly isFirst: boolean;
  /** null: handing over. */
  readonly item: PairCheck | PairResource | PairRepair | null;
  readonly budget: number;
  weight: number;
  use: number;
}
