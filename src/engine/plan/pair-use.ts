import { carry, GRID, ODDS, spread } from './pair-grid.ts';
import { type PairCharge, type PairCheck, type PairResource, type PairStart, type PairStop, type PairTable, STOP } from './pair-table.ts';

/** Told how much the value of a pair rises with a charge in the first and in the second world. */
type AddUse = (item: PairCharge, first: number, second: number) => void;

/** A problem of the pair that its policy may reach, and with what weight at each grid ray. */
interface Visit {
  readonly left: number;
  readonly paid: number;
  readonly weight: Float64Array;
}

/**
 * The derivative of a pair's value at its start by every charge: how often its own policy pays each, weighted by chance. Weight is
 * laid on the grid rays and carried through the choices made there, just as values are read the other way.
 */
export function measureUse({ pair, left, paid, first, second }: PairStart, add: AddUse): void {
  let weight = new Float64Array(GRID);
  spread(weight, first, second);
  for (let i = pair.given.length - 1; i >= 0; i--) {
    const told = new Float64Array(GRID);
    for (let g = 0; g < GRID; g++) carry((pair.given[i] as PairCheck).shifts, weight[g] as number, g, told);
    weight = told;
  }
  // By falling number of checks left, so that all weight has arrived where it is passed on.
  const levels: Map<number, Visit>[] = Array.from({ length: countBits(left) + 1 }, () => new Map());
  (levels[countBits(left)] as Map<number, Visit>).set(pair.keyOf(left, paid), { left, paid, weight });
  for (let level = levels.length - 1; level >= 0; level--) {
    for (const visit of (levels[level] as Map<number, Visit>).values()) pass(pair, visit, levels[level - 1], add);
  }
}

function pass(pair: PairTable, { left, paid, weight }: Visit, after: Map<number, Visit> | undefined, add: AddUse): void {
  const { choice } = pair.solve(left, paid);
  const stops = pair.stopValues(paid).choice;
  const firsts = new Float64Array(pair.checks.length + pair.stops.length);
  const seconds = new Float64Array(firsts.length);
  for (let g = 0; g < GRID; g++) {
    const mass = weight[g] as number;
    if (mass === 0) continue;
    const chosen = choice[g] as number;
    const at = chosen === STOP ? pair.checks.length + (stops[g] as number) : chosen;
    firsts[at] = (firsts[at] as number) + mass * (ODDS[g] as number);
    seconds[at] = (seconds[at] as number) + mass;
    if (chosen === STOP) continue;
    const check = pair.checks[chosen] as PairCheck;
    const next = left & ~(1 << chosen);
    const nextPaid = paid | check.resources;
    const key = pair.keyOf(next, nextPaid);
    let visit = after?.get(key);
    if (!visit) {
      visit = { left: next, paid: nextPaid, weight: new Float64Array(GRID) };
      after?.set(key, visit);
    }
    carry(check.shifts, mass, g, visit.weight);
  }
  for (let at = 0; at < firsts.length; at++) {
    const a = firsts[at] as number;
    const b = seconds[at] as number;
    if (b === 0) continue;
    if (at < pair.checks.length) {
      const check = pair.checks[at] as PairCheck;
      // Only the cheapest member counts; the others nearly do.
      for (const member of check.members) {
        add(member, a * nearness(check.costFirst, member.costFirst), b * nearness(check.costSecond, member.costSecond));
      }
      addResources(pair, check.resources & ~paid, a, b, add);
    } else {
      const stop = pair.stops[at - pair.checks.length] as PairStop;
      add(stop, a, b);
      addResources(pair, stop.resources & ~paid, stop.fixesFirst ? 0 : a, stop.fixesSecond ? 0 : b, add);
    }
  }
}

function addResources(pair: PairTable, bits: number, first: number, second: number, add: AddUse): void {
  for (let s = 0; s < pair.resources.length; s++) if (bits & (1 << s)) add(pair.resources[s] as PairResource, first, second);
}

function countBits(bits: number): number {
  let count = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) count++;
  return count;
}

/** How nearly a member is the cheapest of its group: a share that is a little dearer would soon count too. */
function nearness(least: number, own: number): number {
  if (own <= least) return 1;
  const ratio = least / own;
  return ratio * ratio * ratio * ratio;
}
