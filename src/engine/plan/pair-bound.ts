import type { Instance } from './instance.ts';
import { type Fixer, KnownCosts } from './known-cost.ts';
import { buildPair } from './pair-build.ts';
import { readValue } from './pair-grid.ts';
import { PairShares, pricesOf } from './pair-shares.ts';
import { HAND_OVER, type PairCheck, type PairMember, type PairResource, type PairStart, type PairTable } from './pair-table.ts';

const NONE = new Int32Array(0);

/** Sets of checks solved for any one pair. */
const FEWEST_SETS = 8;
const MOST_SETS = 8192;

/** How much detail: each pair left out and each set of checks not told from another only lowers the bound. */
export interface PairBoundOptions {
  readonly mostPairs: number;
  /** Sets of checks solved for a pair, on average: more for those that may add most. */
  readonly mostSets: number;
}

/**
 * A lower bound by splitting costs over pairs of hypotheses.
 *
 * In the world where i is true, whatever an action costs is divided among the omniscient problem of i and the pairs
 * {i, j}; each part is then solved on its own, and the parts add up to no more than any policy pays (cost partitioning;
 * a Lagrangian relaxation of "all pairs follow the same policy"). A pair pays its shares for the checks that tell i from
 * j until it stops: by a repair that is waste in one of the two worlds, or by a way out that is dearer than it had to be.
 * With no checks the pairs give exactly Smith's optimum, the sum over pairs of min(p_i c_j, p_j c_i). Shares are tuned by
 * `tune`.
 */
export class PairBound {
  readonly pairs: PairTable[] = [];
  private readonly instance: Instance;
  private readonly known: KnownCosts;
  private readonly shares: PairShares;
  /** Copies of each check still open at the status prepared (repeats, and readings that a repair may spoil). */
  private readonly copies: Int32Array;
  private readonly hasSpoils: boolean;
  // What `prepare` leaves for `value`.
  private readonly single: Float64Array;
  /** 1 where the hypothesis still counts in its pairs: no repair that may fix it has been tried. */
  private readonly counts: Uint8Array;
  private readonly tables: Float64Array[] = [];
  private readonly logs: Float64Array;
  private readonly hypothesesOf: Int32Array[] = [];
  private readonly pairsOf: Int32Array[] = [];
  private readonly countsOf: Int32Array[] = [];
  // What `prepareAfter` changed.
  private readonly undoPair: Int32Array;
  private readonly undoTable: Float64Array[] = [];
  private readonly undoSingle: Float64Array;
  private readonly undoCounts: Uint8Array;
  private readonly undoCopies: Int32Array;
  private undoCounted: Int32Array = NONE;
  private undoHypotheses: Int32Array = NONE;
  private undoPairs = 0;

  constructor(instance: Instance, belief: Float64Array, status: Uint8Array, options: PairBoundOptions) {
    this.instance = instance;
    const n = instance.hypotheses;
    this.known = new KnownCosts(instance);
    this.single = new Float64Array(n);
    this.counts = new Uint8Array(n);
    this.logs = new Float64Array(n);
    this.undoCopies = new Int32Array(instance.checks);
    this.undoSingle = new Float64Array(n);
    this.undoCounts = new Uint8Array(n);
    this.hasSpoils = instance.spoils.some((list) => list.length > 0);
    this.copies = Int32Array.from({ length: instance.checks }, (_, check) => this.copiesLeft(check, status));
    const price = pricesOf(instance, this.known, status);
    const heaviest = this.heaviestPairs(belief, status, options.mostPairs);
    const total = heaviest.reduce((sum, { most }) => sum + most, 0);
    for (const { pair, most } of heaviest) {
      const sets = Math.max(
        Math.min(FEWEST_SETS, options.mostSets),
        Math.min(MOST_SETS, (options.mostSets * heaviest.length * most) / total),
      );
      this.pairs.push(buildPair(instance, status, this.copies, this.known, pair, sets, price));
    }
    this.undoPair = new Int32Array(this.pairs.length);
    this.shares = new PairShares(instance, this.known, this.pairs, belief, status, price);
    this.makeTouches();
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

  /** Pairs by the most that each could add, were all costs charged to it alone. */
  private heaviestPairs(belief: Float64Array, status: Uint8Array, most: number): { pair: [number, number]; most: number }[] {
    const { instance, known } = this;
    const least = Array.from(belief, (_, h) => known.of(h, status));
    const open = known.fixers.map((fixers) => fixers.map(({ repair }) => repair).filter((repair) => !status[instance.triedAt + repair]));
    // What stopping by a repair (or handing over) wastes in a world.
    const waste = (h: number, repair: number): number => {
      if (repair !== HAND_OVER && !known.fixes(repair, h)) return instance.cost[instance.checks + repair] as number;
      return Math.max(0, known.ending(h, repair, status) - (least[h] as number));
    };
    const pairs: { i: number; j: number; most: number }[] = [];
    for (let i = 0; i < belief.length; i++) {
      for (let j = i + 1; j < belief.length; j++) {
        let cost = Number.POSITIVE_INFINITY;
        for (const repair of [HAND_OVER, ...(open[i] as number[]), ...(open[j] as number[])]) {
          cost = Math.min(cost, (belief[i] as number) * waste(i, repair) + (belief[j] as number) * waste(j, repair));
        }
        if (cost > 0) pairs.push({ i, j, most: cost });
      }
    }
    pairs.sort((a, b) => b.most - a.most || a.i - b.i || a.j - b.j);
    return pairs.slice(0, most).map(({ i, j, most: cost }) => ({ pair: [i, j], most: cost }));
  }

  /** Makes ready for beliefs at this status. */
  prepare(status: Uint8Array): void {
    for (let check = 0; check < this.instance.checks; check++) this.copies[check] = this.copiesLeft(check, status);
    for (let h = 0; h < this.instance.hypotheses; h++) this.prepareHypothesis(h, status);
    for (let p = 0; p < this.pairs.length; p++) this.tables[p] = this.tableOf(p, status);
    this.undoPairs = 0;
    this.undoHypotheses = NONE;
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
      this.undoSingle[h] = this.single[h] as number;
      this.undoCounts[h] = this.counts[h] as number;
      this.prepareHypothesis(h, status);
    }
    this.undoHypotheses = hypotheses;
    const pairs = this.pairsOf[action] as Int32Array;
    for (let i = 0; i < pairs.length; i++) {
      const p = pairs[i] as number;
      this.undoPair[i] = p;
      this.undoTable[i] = this.tables[p] as Float64Array;
      this.tables[p] = this.tableOf(p, status);
    }
    this.undoPairs = pairs.length;
  }

  restore(): void {
    for (let i = 0; i < this.undoCounted.length; i++) this.copies[this.undoCounted[i] as number] = this.undoCopies[i] as number;
    this.undoCounted = NONE;
    for (let i = 0; i < this.undoHypotheses.length; i++) {
      const h = this.undoHypotheses[i] as number;
      this.single[h] = this.undoSingle[h] as number;
      this.counts[h] = this.undoCounts[h] as number;
    }
    this.undoHypotheses = NONE;
    for (let i = 0; i < this.undoPairs; i++) this.tables[this.undoPair[i] as number] = this.undoTable[i] as Float64Array;
    this.undoPairs = 0;
  }

  private prepareHypothesis(h: number, status: Uint8Array): void {
    const { triedAt } = this.instance;
    this.single[h] = this.known.of(h, status);
    const fixers = this.known.fixers[h] as readonly Fixer[];
    let counts = 1;
    for (let i = 0; i < fixers.length; i++) if (status[triedAt + (fixers[i] as Fixer).repair]) counts = 0;
    this.counts[h] = counts;
  }

  private tableOf(p: number, status: Uint8Array): Float64Array {
    const pair = this.pairs[p] as PairTable;
    return pair.values(this.checksLeft(pair), this.resourcesPaid(pair, status));
  }

  /** Which hypotheses and pairs each action touches: only these are looked up again after it. */
  private makeTouches(): void {
    const { instance, known } = this;
    for (let action = 0; action < instance.handOver; action++) {
      const setUps = instance.setUpsOf[action] as Int32Array;
      const repair = action - instance.checks;
      const hypotheses: number[] = [];
      known.fixers.forEach((fixers, h) => {
        const touched = fixers.some(
          (fixer) => fixer.repair === repair || fixer.checks.includes(action) || fixer.setUps.some((setUp) => setUps.includes(setUp)),
        );
        if (touched) hypotheses.push(h);
      });
      const spoiled = repair >= 0 ? (instance.spoils[repair] as Int32Array) : NONE;
      const pairs: number[] = [];
      this.pairs.forEach((pair, p) => {
        const told = pair.checks.some(({ members }) => members.some(({ check }) => check === action || spoiled.includes(check)));
        const pays = pair.resources.some(({ resource }) =>
          resource < instance.checks ? resource === action : setUps.includes(resource - instance.checks),
        );
        if (told || pays) pairs.push(p);
      });
      this.countsOf.push(action < instance.checks ? Int32Array.of(action) : Int32Array.from(new Set([...spoiled])));
      this.hypothesesOf.push(Int32Array.from(hypotheses));
      this.pairsOf.push(Int32Array.from(pairs));
    }
  }

  private checksLeft(pair: PairTable): number {
    let left = 0;
    let run = 0;
    let copies = 0;
    for (let c = pair.checks.length - 1; c >= 0; c--) {
      const { members } = pair.checks[c] as PairCheck;
      // Uses of a group stand side by side; the last ones are those that are left.
      run = c + 1 < pair.checks.length && (pair.checks[c + 1] as PairCheck).members === members ? run + 1 : 1;
      if (run === 1) {
        copies = 0;
        for (let m = 0; m < members.length; m++) copies += this.copies[(members[m] as PairMember).check] as number;
      }
      if (run <= copies) left |= 1 << c;
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
    const { logs, counts, pairs, tables } = this;
    let bound = 0;
    for (let h = 0; h < belief.length; h++) {
      const weight = belief[h] as number;
      bound += weight * (this.single[h] as number);
      logs[h] = weight > 0 ? Math.log(weight) : 0;
    }
    for (let p = 0; p < pairs.length; p++) {
      const pair = pairs[p] as PairTable;
      if (!counts[pair.first] || !counts[pair.second]) continue;
      const first = belief[pair.first] as number;
      const second = belief[pair.second] as number;
      if (first > 0 && second > 0) {
        bound += readValue(tables[p] as Float64Array, first, second, logs[pair.first] as number, logs[pair.second] as number);
      }
    }
    return bound;
  }

  /** Tunes the shares for this belief and status; returns the best bound seen, whose shares stay. */
  tune(belief: Float64Array, status: Uint8Array, rounds: number): number {
    this.prepare(status);
    let best = this.value(belief);
    let kept = this.shares.weights();
    for (let round = 0; round < rounds; round++) {
      this.shares.measureUse(this.starts(belief, status));
      this.shares.move(0.75 / (1 + round) ** 0.6);
      this.prepare(status);
      const bound = this.value(belief);
      if (bound > best) {
        best = bound;
        kept = this.shares.weights();
      }
    }
    this.shares.setWeights(kept);
    this.prepare(status);
    return best;
  }

  private starts(belief: Float64Array, status: Uint8Array): PairStart[] {
    const weight = (h: number): number => (this.counts[h] ? (belief[h] as number) : 0);
    const starts = this.pairs.map((pair) => ({
      pair,
      left: this.checksLeft(pair),
      paid: this.resourcesPaid(pair, status),
      first: weight(pair.first),
      second: weight(pair.second),
    }));
    return starts.filter(({ first, second }) => first > 0 && second > 0);
  }
}
