/** Points of the log-odds grid on each side of even odds. */
const HALF = 40;
const STEP = 0.2;
export const GRID = 2 * HALF + 1;
const LOWEST = -HALF * STEP;
const CELL = Math.exp(STEP) - 1;

/** Odds b_i / b_j at each grid point. */
const ODDS = Float64Array.from({ length: GRID }, (_, g) => Math.exp(LOWEST + g * STEP));

/** A check as a pair of hypotheses sees it. Costs are what the pair is charged in the first and the second world. */
export interface PairCheck {
  readonly check: number;
  costFirst: number;
  costSecond: number;
  /** Bits of the pair's checks that must be done before. */
  needs: number;
  /** Bits of the pair's resources (set-ups, forced checks) that it pays when unpaid. */
  resources: number;
  readonly likelihoodFirst: Float64Array;
  readonly likelihoodSecond: Float64Array;
}

/** A set-up or forced check, paid once. */
export interface PairResource {
  readonly resource: number;
  costFirst: number;
  costSecond: number;
}

/** Trying one of the repairs of a side costs the other world `cost`, and its unpaid resources there. */
export interface PairRepair {
  readonly repair: number;
  cost: number;
  resources: number;
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
  readonly resources: PairResource[];
  readonly repairsFirst: PairRepair[];
  readonly repairsSecond: PairRepair[];
  /** Checks too weak or too many for the table: their results are given away when the problem stops. */
  readonly free: PairCheck[];
  handOverFirst = 0;
  handOverSecond = 0;
  private tables: Store = new Map();
  private stops = new Map<number, Float64Array>();

  constructor(first: number, second: number, parts: Pick<PairTable, 'checks' | 'resources' | 'repairsFirst' | 'repairsSecond' | 'free'>) {
    this.first = first;
    this.second = second;
    this.checks = parts.checks;
    this.resources = parts.resources;
    this.repairsFirst = parts.repairsFirst;
    this.repairsSecond = parts.repairsSecond;
    this.free = parts.free;
    this.tables = this.store();
  }

  /** An array where the keys are few, which is faster than a map. */
  private store(): Store {
    const bits = this.checks.length + this.resources.length;
    return bits <= 10 ? new SmallStore(1 << bits) : new Map();
  }

  /** Forget all values: the charges have changed. */
  clear(): void {
    this.tables = this.store();
    this.stops = new Map();
  }

  /** Values at the grid rays (odds, 1) for the checks left (bits) and resources paid (bits). */
  values(left: number, paid: number): Float64Array {
    const key = left * (1 << this.resources.length) + paid;
    const known = this.tables.get(key);
    if (known) return known;
    const values = this.stopValues(paid).slice();
    for (let c = 0; c < this.checks.length; c++) {
      if (!this.mayDo(c, left)) continue;
      const check = this.checks[c] as PairCheck;
      const after = this.values(left & ~(1 << c), paid | check.resources);
      const unpaid = check.resources & ~paid;
      const first = check.costFirst + this.resourceCost(unpaid, true);
      const second = check.costSecond + this.resourceCost(unpaid, false);
      for (let g = 0; g < GRID; g++) scratch[g] = first * (ODDS[g] as number) + second;
      addOutcomes(check, after, scratch);
      for (let g = 0; g < GRID; g++) if ((scratch[g] as number) < (values[g] as number)) values[g] = scratch[g] as number;
    }
    this.tables.set(key, values);
    return values;
  }

  mayDo(check: number, left: number): boolean {
    return (left & (1 << check)) !== 0 && ((this.checks[check] as PairCheck).needs & left) === 0;
  }

  /** Least cost of stopping: a repair of either side (paid in the other world) or handing over. */
  stopCosts(paid: number): { repairFirst: number; repairSecond: number } {
    let repairFirst = Number.POSITIVE_INFINITY;
    for (const r of this.repairsFirst) repairFirst = Math.min(repairFirst, r.cost + this.resourceCost(r.resources & ~paid, false));
    let repairSecond = Number.POSITIVE_INFINITY;
    for (const r of this.repairsSecond) repairSecond = Math.min(repairSecond, r.cost + this.resourceCost(r.resources & ~paid, true));
    return { repairFirst, repairSecond };
  }

  private stopValues(paid: number): Float64Array {
    const known = this.stops.get(paid);
    if (known) return known;
    const { repairFirst, repairSecond } = this.stopCosts(paid);
    let values = new Float64Array(GRID);
    for (let g = 0; g < GRID; g++) {
      const odds = ODDS[g] as number;
      values[g] = Math.min(repairFirst, odds * repairSecond, odds * this.handOverFirst + this.handOverSecond);
    }
    for (const check of this.free) {
      const told = new Float64Array(GRID);
      addOutcomes(check, values, told);
      values = told;
    }
    this.stops.set(paid, values);
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

interface Store {
  get(key: number): Float64Array | undefined;
  set(key: number, values: Float64Array): unknown;
}

class SmallStore implements Store {
  private readonly values: (Float64Array | undefined)[];

  constructor(size: number) {
    this.values = new Array(size).fill(undefined);
  }

  get(key: number): Float64Array | undefined {
    return this.values[key];
  }

  set(key: number, values: Float64Array): void {
    this.values[key] = values;
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
