/**
 * The grid of log-odds on which pairs of hypotheses are solved. A value there is that of weights (odds, 1); values are concave and
 * homogeneous, so that the chord between two grid rays never lies above them. An outcome is a shift, the same for each point.
 */

/** Points on each side of even odds. */
const HALF = 15;
const STEP = 0.35;
export const GRID = 2 * HALF + 1;
const LOWEST = -HALF * STEP;
const CELL = Math.exp(STEP) - 1;

/** Odds first / second at each grid point. */
export const ODDS = Float64Array.from({ length: GRID }, (_, g) => Math.exp(LOWEST + g * STEP));

/** What an outcome does to the log-odds: a shift by grid cells, and how the value there is read between two points. */
export interface Shift {
  readonly whole: number;
  readonly low: number;
  readonly high: number;
  readonly first: number;
  readonly second: number;
}

/** The shifts of all outcomes that leave both hypotheses possible. */
export function shiftsOf(likelihoodFirst: Float64Array, likelihoodSecond: Float64Array): Shift[] {
  const shifts: Shift[] = [];
  for (let o = 0; o < likelihoodFirst.length; o++) {
    const first = likelihoodFirst[o] as number;
    const second = likelihoodSecond[o] as number;
    if (first <= 0 || second <= 0) continue;
    const shift = Math.log(first / second) / STEP;
    const whole = Math.floor(shift);
    const within = (Math.exp((shift - whole) * STEP) - 1) / CELL;
    shifts.push({ whole, low: second * (1 - within), high: second * within, first, second });
  }
  return shifts;
}

/** Adds the value after each outcome to `into`. */
export function addOutcomes(shifts: readonly Shift[], values: Float64Array, into: Float64Array): void {
  for (let o = 0; o < shifts.length; o++) {
    const { whole, low, high, first, second } = shifts[o] as Shift;
    const start = Math.min(GRID, Math.max(0, -whole));
    const end = Math.max(start, Math.min(GRID, GRID - 1 - whole));
    // Past either end of the grid the value is linear in one of the weights.
    const lowest = ((values[0] as number) * first) / (ODDS[0] as number);
    const highest = (values[GRID - 1] as number) * second;
    for (let g = 0; g < start; g++) into[g] = (into[g] as number) + lowest * (ODDS[g] as number);
    for (let g = start; g < end; g++) {
      into[g] = (into[g] as number) + low * (values[g + whole] as number) + high * (values[g + whole + 1] as number);
    }
    for (let g = end; g < GRID; g++) into[g] = (into[g] as number) + highest;
  }
}

/** Carries weight from grid point g to where each outcome leads: `addOutcomes` the other way round. */
export function carry(shifts: readonly Shift[], weight: number, g: number, into: Float64Array): void {
  for (let o = 0; o < shifts.length; o++) {
    const { whole, low, high, first, second } = shifts[o] as Shift;
    const at = g + whole;
    if (at < 0) into[0] = (into[0] as number) + (weight * first * (ODDS[g] as number)) / (ODDS[0] as number);
    else if (at >= GRID - 1) into[GRID - 1] = (into[GRID - 1] as number) + weight * second;
    else {
      into[at] = (into[at] as number) + weight * low;
      into[at + 1] = (into[at + 1] as number) + weight * high;
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

/** Lays the weights (first, second) on the grid rays between which `readValue` reads. */
export function spread(into: Float64Array, first: number, second: number): void {
  const position = (Math.log(first / second) - LOWEST) / STEP;
  const cell = Math.floor(position);
  if (position < 0) into[0] = first / (ODDS[0] as number);
  else if (cell >= GRID - 1) into[GRID - 1] = second;
  else {
    const high = (first / (ODDS[cell] as number) - second) / CELL;
    into[cell] = second - high;
    into[cell + 1] = high;
  }
}
