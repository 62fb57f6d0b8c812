import type { Instance } from './instance.ts';
import { type Fixer, forcedChecks, type KnownCosts } from './known-cost.ts';
import { HAND_OVER, type PairCheck, type PairResource, type PairStop, PairTable } from './pair-table.ts';

/** More resources than this are taken as free of charge: the key of a table has so many bits for them. */
const MOST_RESOURCES = 6;

/**
 * Lays out the problem of one pair of hypotheses, still without charges: the checks that tell the two apart best (as many as
 * `mostChecks`; the rest are given away), what must come before them, and the resources that they and the repairs need.
 * `copies` says how often each check can still be done.
 */
export function buildPair(
  instance: Instance,
  status: Uint8Array,
  copies: Int32Array,
  known: KnownCosts,
  [first, second]: readonly [number, number],
  mostChecks: number,
): PairTable {
  const informative = informativeChecks(instance, copies, first, second);
  const row = (check: number, h: number) =>
    Float64Array.from(
      { length: instance.outcomes[check] as number },
      (_, o) => instance.likelihood[(instance.likelihoodAt[check] as number) + o * instance.hypotheses + h] as number,
    );
  const make = ({ check, affinity }: Informative): PairCheck => ({
    check,
    affinity,
    costFirst: 0,
    costSecond: 0,
    needs: 0,
    resources: 0,
    likelihoodFirst: row(check, first),
    likelihoodSecond: row(check, second),
  });
  const checks = informative.slice(0, mostChecks).map(make);
  const strong = new Set(checks.map(({ check }) => check));
  const given = informative.slice(mostChecks).map(make);
  const resources: PairResource[] = [];
  const needed = (action: number, forced: readonly number[]): number[] => {
    const found = new Set<number>();
    for (const check of forced) if (!status[instance.everAt + check] && !strong.has(check)) found.add(check);
    for (const step of [action, ...forced]) {
      for (const setUp of instance.setUpsOf[step] as Int32Array) {
        if (!status[instance.paidAt + setUp]) found.add(instance.checks + setUp);
      }
    }
    return [...found];
  };
  const bitsOf = (wanted: readonly number[]): number => {
    let bits = 0;
    for (const resource of wanted) {
      let at = resources.findIndex((known) => known.resource === resource);
      if (at < 0 && resources.length < MOST_RESOURCES) at = resources.push({ resource, costFirst: 0, costSecond: 0 }) - 1;
      if (at >= 0) bits |= 1 << at;
    }
    return bits;
  };
  checks.forEach((local, index) => {
    const forced = forcedChecks(instance, local.check);
    local.resources = bitsOf(needed(local.check, forced));
    for (let other = 0; other < checks.length; other++) {
      const before = (checks[other] as PairCheck).check;
      const isFirstCopy = checks.findIndex((known) => known.check === before) === other;
      if (isFirstCopy && forced.includes(before) && !status[instance.everAt + before]) local.needs |= 1 << other;
      if (before === local.check && other < index) local.needs |= 1 << other;
    }
  });
  const open = (fixer: Fixer): boolean => !status[instance.triedAt + fixer.repair];
  const stops = makeStops((known.fixers[first] ?? []).filter(open), (known.fixers[second] ?? []).filter(open), (fixer) =>
    bitsOf(needed(instance.checks + fixer.repair, fixer.checks)),
  );
  return new PairTable(first, second, { checks, given, resources, stops });
}

type Informative = Pick<PairCheck, 'check' | 'affinity'>;

/** Checks that tell two hypotheses apart, the most telling first, each as often as it can still be done. */
function informativeChecks(instance: Instance, copies: Int32Array, first: number, second: number): Informative[] {
  const n = instance.hypotheses;
  const found: Informative[] = [];
  for (let check = 0; check < instance.checks; check++) {
    if ((copies[check] as number) <= 0) continue;
    let affinity = 0;
    const at = instance.likelihoodAt[check] as number;
    for (let o = 0; o < (instance.outcomes[check] as number); o++) {
      affinity += Math.sqrt((instance.likelihood[at + o * n + first] as number) * (instance.likelihood[at + o * n + second] as number));
    }
    for (let copy = 0; affinity < 1 - 1e-9 && copy < (copies[check] as number); copy++) found.push({ check, affinity });
  }
  return found.sort((a, b) => a.affinity - b.affinity || a.check - b.check);
}

/** Every repair that may fix one of the two ends their problem, and so does handing over. */
function makeStops(first: readonly Fixer[], second: readonly Fixer[], resourcesOf: (fixer: Fixer) => number): PairStop[] {
  const stops: PairStop[] = [];
  const add = (repair: number, fixesFirst: boolean, fixesSecond: boolean, resources: number): void => {
    stops.push({ repair, fixesFirst, fixesSecond, resources, costFirst: 0, costSecond: 0 });
  };
  const isAmong = (fixers: readonly Fixer[], { repair }: Fixer): boolean => fixers.some((fixer) => fixer.repair === repair);
  for (const fixer of first) {
    const isShared = isAmong(second, fixer);
    add(fixer.repair, true, isShared, isShared ? 0 : resourcesOf(fixer));
  }
  for (const fixer of second) if (!isAmong(first, fixer)) add(fixer.repair, false, true, resourcesOf(fixer));
  add(HAND_OVER, true, true, 0);
  return stops;
}
