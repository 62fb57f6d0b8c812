import type { Instance } from './instance.ts';
import { KnownCosts } from './known-cost.ts';
import { buildPair } from './pair-build.ts';
import { PairShares, type PairStart } from './pair-shares.ts';
import { type PairCheck, type PairResource, type PairTable, readValue } from './pair-table.ts';

const NONE = new Int32Array(0);

/** A repair that fixes a hypothesis with at least this chance ends the pair problems of that hypothesis. */
const STRONG = 0.7;

/** How much detail: each pair left out and each check beyond the most telling ones only lowers the bound. */
export interface PairBoundOptions {
  readonly mostPairs: number;
  readonly mostChecks: number;
}

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
  private readonly shares: PairShares;
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

  constructor(instance: Instance, belief: Float64Array, status: Uint8Array, options: PairBoundOptions) {
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
    for (const [i, j] of this.heaviestPairs(belief, options.mostPairs)) {
      const pair = this.makePair(i, j, status, options.mostChecks);
      if (pair) this.pairs.push(pair);
    }
    this.shares = new PairShares(instance, this.known, this.pairs, belief, status, STRONG);
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

  private fixes(repair: number, hypothesis: number): boolean {
    return (this.known.fixers[hypothesis] ?? []).some((fixer) => fixer.repair === repair);
  }

  /** Pairs by falling chance of the less likely of the two: what a pair can add is at most in proportion to it. */
  private heaviestPairs(belief: Float64Array, most: number): [number, number][] {
    const pairs: { i: number; j: number; weight: number }[] = [];
    for (let i = 0; i < belief.length; i++) {
      for (let j = i + 1; j < belief.length; j++) {
        const weight = Math.min(belief[i] as number, belief[j] as number);
        if (weight > 0) pairs.push({ i, j, weight });
      }
    }
    pairs.sort((a, b) => b.weight - a.weight || a.i - b.i || a.j - b.j);
    return pairs.slice(0, most).map(({ i, j }) => [i, j]);
  }

  private makePair(first: number, second: number, status: Uint8Array, mostChecks: number): PairTable | null {
    const { instance } = this;
    const strongFirst = this.strongOf[first] as number[];
    const strongSecond = this.strongOf[second] as number[];
    if (strongFirst.length + strongSecond.length === 0) return null;
    if (strongFirst.some((r) => this.fixes(r, second)) || strongSecond.some((r) => this.fixes(r, first))) return null;
    const sides = { first, second, repairsFirst: strongFirst, repairsSecond: strongSecond };
    return buildPair(instance, status, this.copies, sides, mostChecks);
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

  /** Tunes the shares for this belief and status; returns the best bound seen, whose shares stay. */
  tune(belief: Float64Array, status: Uint8Array, rounds: number): number {
    this.prepare(status);
    let best = this.value(belief);
    let kept = this.shares.weights();
    for (let round = 0; round < rounds; round++) {
      this.shares.measureUse(this.starts(belief, status));
      this.shares.move(1.5 / Math.sqrt(1 + round));
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
    const starts = this.pairs.map((pair) => ({
      pair,
      left: this.checksLeft(pair),
      paid: this.resourcesPaid(pair, status),
      first: (belief[pair.first] as number) * (this.factor[pair.first] as number),
      second: (belief[pair.second] as number) * (this.factor[pair.second] as number),
    }));
    return starts.filter(({ first, second }) => first > 0 && second > 0);
  }
}
