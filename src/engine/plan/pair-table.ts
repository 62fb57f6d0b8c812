/** Points of the log-odds grid on each side of even odds. */
const HALF = 40;
const STEP = 0.2;
export const GRID = 2 * HALF + 1;
const LOWEST = -HALF * STEP;
const CELL = Math.exp(STEP) - 1;

/** Odds first / second at each grid point. */
const ODDS = Float64Array.from({ length: GRID }, (_, g) => Math.exp(LOWEST + g * STEP));

/** What a thing costs a pair of hypotheses: in the world where the first is true, and in that of the second. */
export interface PairCharge {
  costFirst: number;
  costSecond: number;
}

/** A check as a pair sees it. */
export interface PairCheck extends PairCharge {
  readonly check: number;
  /** How alike its outcomes are under the two: 1 tells nothing (Bhattacharyya coefficient). */
  readonly affinity: number;
  /** Bits of the pair's checks that must be done before. */
  needs: number;
  /** Bits of the pair's resources (set-ups, forced checks) that it pays when unpaid. */
  resources: number;
  readonly likelihoodFirst: Float64Array;
  readonly likelihoodSecond: Float64Array;
}

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

export interface PairParts {
  readonly checks: PairCheck[];
  /** Checks too many for the table: their results are given away before all else. */
  readonly given: PairCheck[];
  readonly resources: PairResource[];
  readonly stops: PairStop[];
}

/**
 * The two-hypothesis stopping problem of the pair bound, solved on a grid of log-odds for each set of checks left and
 * resources paid. The value is concave and homogeneous in the two weights, so that the chord between grid rays never
 * lies above it: what is read from the grid is a lower bound. In log-odds an outcome is a shift, the same for each point.
 */
export class PairTable {
  readonly first: number;
  readonly second: number;
  readonly checks: PairCheck[];
  readonly given: PairCheck[];
  readonly resources: PairResource[];
  readonly stops: PairStop[];
  private readonly tables = new Map<number, Float64Array>();
  private readonly told = new Map<number, Float64Array>();
  private readonly stopTables = new Map<number, Float64Array>();

  constructor(first: number, second: number, { checks, given, resources, stops }: PairParts) {
    this.first = first;
    this.second = second;
    this.checks = checks;
    this.given = given;
    this.resources = resources;
    this.stops = stops;
  }

  /** Forget all values: the charges have changed. */
  clear(): void {
    this.tables.clear();
    this.told.clear();
    this.stopTables.clear();
  }

  /** Values at the grid rays (odds, 1) for the checks left (bits) and resources paid (bits). */
  values(left: number, paid: number): Float64Array {
    if (this.given.length === 0) return this.solve(left, paid);
    const key = this.keyOf(left, paid);
    const known = this.told.get(key);
    if (known) return known;
    // Before all else, not when the problem stops: what is known early decides which checks are worth their cost.
    let values = this.solve(left, paid);
    for (const check of this.given) {
      const told = new Float64Array(GRID);
      addOutcomes(check, values, told);
      values = told;
    }
    this.told.set(key, values);
    return values;
  }

  private keyOf(left: number, paid: number): number {
    return left * (1 << this.resources.length) + paid;
  }

  private solve(left: number, paid: number): Float64Array {
    const key = this.keyOf(left, paid);
    const known = this.tables.get(key);
    if (known) return known;
    const values = this.stopValues(paid).slice();
    for (let c = 0; c < this.checks.length; c++) {
      if (!this.mayDo(c, left)) continue;
      const check = this.checks[c] as PairCheck;
      this.takeIfLess(check, this.solve(left & ~(1 << c), paid | check.resources), paid, values);
    }
    this.tables.set(key, values);
    return values;
  }

  private takeIfLess(check: PairCheck, after: Float64Array, paid: number, values: Float64Array): void {
    const unpaid = check.resources & ~paid;
    const first = check.costFirst + this.resourceCost(unpaid, true);
    const second = check.costSecond + this.resourceCost(unpaid, false);
    for (let g = 0; g < GRID; g++) scratch[g] = first * (ODDS[g] as number) + second;
    addOutcomes(check, after, scratch);
    for (let g = 0; g < GRID; g++) if ((scratch[g] as number) < (values[g] as number)) values[g] = scratch[g] as number;
  }

  mayDo(check: number, left: number): boolean {
    return (left & (1 << check)) !== 0 && ((this.checks[check] as PairCheck).needs & left) === 0;
  }

  /** What a stop costs in the first or the second world. */
  stopCost(stop: PairStop, paid: number, first: boolean): number {
    if (first) return stop.costFirst + (stop.fixesFirst ? 0 : this.resourceCost(stop.resources & ~paid, true));
    return stop.costSecond + (stop.fixesSecond ? 0 : this.resourceCost(stop.resources & ~paid, false));
  }

  private stopValues(paid: number): Float64Array {
    const known = this.stopTables.get(paid);
    if (known) return known;
    const values = new Float64Array(GRID).fill(Number.POSITIVE_INFINITY);
    for (const stop of this.stops) {
      const first = this.stopCost(stop, paid, true);
      const second = this.stopCost(stop, paid, false);
      for (let g = 0; g < GRID; g++) values[g] = Math.min(values[g] as number, first * (ODDS[g] as number) + second);
    }
    this.stopTables.set(paid, values);
    return values;
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

const scratch = new Float64Array(GRID);

/** Adds the value after each outcome of a check to `into`. */
function addOutcomes(check: PairCheck, values: Float64Array, into: Float64Array): void {
  for (let o = 0; o < check.likelihoodFirst.length; o++) {
    const first = check.likelihoodFirst[o] as number;
    const second = check.likelihoodSecond[o] as number;
    if (first <= 0 || second <= 0) continue;
    const shift = Math.log(first / second) / STEP;
    const whole = Math.floor(shift);
    const within = (Math.exp((shift - whole) * STEP) - 1) / CELL;
    const low = second * (1 - within);
    const high = second * within;
    const lowest = (values[0] as number) * first;
    const highest = (values[GRID - 1] as number) * second;
    for (let g = 0; g < GRID; g++) {
      const at = g + whole;
      let value: number;
      if (at < 0) value = (lowest * (ODDS[g] as number)) / (ODDS[0] as number);
      else if (at >= GRID - 1) value = highest;
      else value = low * (values[at] as number) + high * (values[at + 1] as number);
      into[g] = (into[g] as number) + value;
    }
  }
}

/** The value at weights (first, second), read as the chord between the grid rays on either side. */
export function readValue(values: Float64Array, first: number, second: number, logFirst: number, logSecond: number): number {
  const position = (logFirst - logSecond - LOWEST) / STEP;
  if (position < 0) return ((values[0] as number) * first) / (ODDS[0] as number);
  const cell = position | 0;
  if (cell >= GRID - 1) return (values[GRID - 1] as number) * second;
  const low = ODDS[cell] as number;
  const base = values[cell] as number;
  return second * base + ((first - low * second) * ((values[cell + 1] as number) - base)) / (low * CELL);
}
