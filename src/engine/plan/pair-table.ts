import { addOutcomes, GRID, ODDS, type Shift } from './pair-grid.ts';

/** What a thing costs a pair of hypotheses: in the world where the first is true, and in that of the second. */
export interface PairCharge {
  costFirst: number;
  costSecond: number;
}

/** A check among those that a pair takes for one. */
export interface PairMember extends PairCharge {
  readonly check: number;
}

/** One use of a check, or of a group of checks that the pair takes for one: it costs as much as the cheapest member. */
export interface PairCheck extends PairCharge {
  /** Uses of one group stand side by side and share this list. */
  readonly members: readonly PairMember[];
  /** Bits of the pair's checks that must be done before. */
  needs: number;
  /** Bits of the pair's resources (set-ups, forced checks) that it pays when unpaid. */
  resources: number;
  /** How alike its outcomes are under the two: 1 tells nothing (Bhattacharyya coefficient). */
  readonly affinity: number;
  readonly shifts: readonly Shift[];
}

/** Whether a use is the first of its group. */
export const isFirstUse = (checks: readonly PairCheck[], use: number): boolean => checks[use - 1]?.members !== checks[use]?.members;

/** A set-up or forced check, paid once. */
export interface PairResource extends PairCharge {
  readonly resource: number;
}

/** Number of handing over among the repairs of stops. */
export const HAND_OVER = -1;

/** A way to end the problem: a repair that may fix at least one of the two hypotheses, or handing over. */
export interface PairStop extends PairCharge {
  readonly repair: number;
  readonly fixesFirst: boolean;
  readonly fixesSecond: boolean;
  /** Resources that it pays when unpaid, in the world that it does not fix. */
  resources: number;
}

/** Where the problem of a pair starts: checks left and resources paid (bits), and the two weights. */
export interface PairStart {
  readonly pair: PairTable;
  readonly left: number;
  readonly paid: number;
  readonly first: number;
  readonly second: number;
}

/** A problem solved: values at the grid rays, and what is done first there: a check, or STOP (of stops: which one). */
export interface Solved {
  readonly values: Float64Array;
  readonly choice: Int8Array;
}

/** In place of a check: the problem ends here. */
export const STOP = -1;

export interface PairParts {
  readonly checks: PairCheck[];
  /** Checks too many for the table: their results are given away before all else. */
  readonly given: PairCheck[];
  readonly resources: PairResource[];
  readonly stops: PairStop[];
}

/**
 * The two-hypothesis stopping problem of the pair bound, solved on a grid of log-odds for each set of checks left and
 * resources paid.
 */
export class PairTable {
  readonly first: number;
  readonly second: number;
  readonly checks: PairCheck[];
  readonly given: PairCheck[];
  readonly resources: PairResource[];
  readonly stops: PairStop[];
  private readonly tables = new Map<number, Solved>();
  private readonly told = new Map<number, Float64Array>();
  private readonly stopTables = new Map<number, Solved>();

  constructor(first: number, second: number, { checks, given, resources, stops }: PairParts) {
    this.first = first;
    this.second = second;
    this.checks = checks;
    this.given = given;
    this.resources = resources;
    this.stops = stops;
  }

  /** The charges have changed: takes the least of each group, and forgets all values. */
  clear(): void {
    this.tables.clear();
    this.told.clear();
    this.stopTables.clear();
    for (const check of this.checks) {
      check.costFirst = leastOf(check.members, true);
      check.costSecond = leastOf(check.members, false);
    }
  }

  /** Values at the grid rays (odds, 1) for the checks left (bits) and resources paid (bits). */
  values(left: number, paid: number): Float64Array {
    if (this.given.length === 0) return this.solve(left, paid).values;
    const key = this.keyOf(left, paid);
    const known = this.told.get(key);
    if (known) return known;
    // Before all else, not when the problem stops: what is known early decides which checks are worth their cost.
    let { values } = this.solve(left, paid);
    for (const check of this.given) {
      const told = new Float64Array(GRID);
      addOutcomes(check.shifts, values, told);
      values = told;
    }
    this.told.set(key, values);
    return values;
  }

  /** A number for checks left and resources paid. */
  keyOf(left: number, paid: number): number {
    return left * (1 << this.resources.length) + paid;
  }

  solve(left: number, paid: number): Solved {
    const key = this.keyOf(left, paid);
    const known = this.tables.get(key);
    if (known) return known;
    const values = this.stopValues(paid).values.slice();
    const choice = new Int8Array(GRID).fill(STOP);
    for (let c = 0; c < this.checks.length; c++) {
      if (!this.mayDo(c, left)) continue;
      const check = this.checks[c] as PairCheck;
      const after = this.solve(left & ~(1 << c), paid | check.resources).values;
      const unpaid = check.resources & ~paid;
      const first = check.costFirst + this.resourceCost(unpaid, true);
      const second = check.costSecond + this.resourceCost(unpaid, false);
      for (let g = 0; g < GRID; g++) scratch[g] = first * (ODDS[g] as number) + second;
      addOutcomes(check.shifts, after, scratch);
      for (let g = 0; g < GRID; g++) {
        if ((scratch[g] as number) >= (values[g] as number)) continue;
        values[g] = scratch[g] as number;
        choice[g] = c;
      }
    }
    const solved = { values, choice };
    this.tables.set(key, solved);
    return solved;
  }

  mayDo(check: number, left: number): boolean {
    return (left & (1 << check)) !== 0 && ((this.checks[check] as PairCheck).needs & left) === 0;
  }

  /** What a stop costs in the first or the second world. */
  stopCost(stop: PairStop, paid: number, first: boolean): number {
    if (first) return stop.costFirst + (stop.fixesFirst ? 0 : this.resourceCost(stop.resources & ~paid, true));
    return stop.costSecond + (stop.fixesSecond ? 0 : this.resourceCost(stop.resources & ~paid, false));
  }

  stopValues(paid: number): Solved {
    const known = this.stopTables.get(paid);
    if (known) return known;
    const values = new Float64Array(GRID).fill(Number.POSITIVE_INFINITY);
    const choice = new Int8Array(GRID);
    this.stops.forEach((stop, s) => {
      const first = this.stopCost(stop, paid, true);
      const second = this.stopCost(stop, paid, false);
      for (let g = 0; g < GRID; g++) {
        const cost = first * (ODDS[g] as number) + second;
        if (cost >= (values[g] as number)) continue;
        values[g] = cost;
        choice[g] = s;
      }
    });
    const solved = { values, choice };
    this.stopTables.set(paid, solved);
    return solved;
  }

  resourceCost(bits: number, first: boolean): number {
    let cost = 0;
    for (let s = 0; s < this.resources.length; s++) {
      if ((bits & (1 << s)) === 0) continue;
      const resource = this.resources[s] as PairResource;
      cost += first ? resource.costFirst : resource.costSecond;
    }
    return cost;
  }
}

function leastOf(charges: readonly PairCharge[], first: boolean): number {
  let least = Number.POSITIVE_INFINITY;
  for (const charge of charges) least = Math.min(least, first ? charge.costFirst : charge.costSecond);
  return least;
}

const scratch = new Float64Array(GRID);
