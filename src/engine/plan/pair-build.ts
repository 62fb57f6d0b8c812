import type { Instance } from './instance.ts';
import { type Fixer, forcedChecks, type KnownCosts } from './known-cost.ts';
import { shiftsOf } from './pair-grid.ts';
import { affinityOf, type CheckGroup, groupChecks, type TellingCheck } from './pair-group.ts';
import { HAND_OVER, isFirstUse, type PairCheck, type PairMember, type PairResource, type PairStop, PairTable } from './pair-table.ts';

/** More resources than this are taken as free of charge: the key of a table has so many bits for them. */
const MOST_RESOURCES = 8;

/**
 * Lays out the problem of one pair of hypotheses, still without charges: the checks that tell the two apart, grouped until at most
 * `mostSets` sets of them are to be solved, what must come before them, and the resources that they and the repairs need. `copies` says
 * how often each check can still be done, `price` what a check or set-up costs in the world of a hypothesis.
 */
export function buildPair(
  instance: Instance,
  status: Uint8Array,
  copies: Int32Array,
  known: KnownCosts,
  [first, second]: readonly [number, number],
  mostSets: number,
  price: (resource: number, hypothesis: number) => number,
): PairTable {
  const { paid, given } = groupChecks(tellingChecks(instance, copies, [first, second], price), mostSets);
  const checks = paid.flatMap((group) => {
    const members = group.members.map(({ check }): PairMember => ({ check, costFirst: 0, costSecond: 0 }));
    return Array.from({ length: group.uses }, () => useOf(group, members));
  });
  const alone = new Set(paid.flatMap(({ members }) => (members.length === 1 ? members.map(({ check }) => check) : [])));
  const resources: PairResource[] = [];
  const needed = (action: number, forced: readonly number[]): number[] => {
    const found = new Set<number>();
    for (const check of forced) if (!status[instance.everAt + check] && !alone.has(check)) found.add(check);
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
    // What all members need; what only some of them need is left out.
    const forced = local.members.map(({ check }) => forcedChecks(instance, check));
    const wanted = local.members.map(({ check }, m) => needed(check, forced[m] as number[]));
    local.resources = bitsOf((wanted[0] as number[]).filter((resource) => wanted.every((list) => list.includes(resource))));
    checks.forEach((before, other) => {
      if (before.members === local.members) local.needs |= other < index ? 1 << other : 0;
      else if (before.members.length === 1 && isFirstUse(checks, other)) {
        const { check } = before.members[0] as PairMember;
        if (!status[instance.everAt + check] && forced.every((list) => list.includes(check))) local.needs |= 1 << other;
      }
    });
  });
  const open = (fixer: Fixer): boolean => !status[instance.triedAt + fixer.repair];
  const stops = makeStops((known.fixers[first] ?? []).filter(open), (known.fixers[second] ?? []).filter(open), (fixer) =>
    bitsOf(needed(instance.checks + fixer.repair, fixer.checks)),
  );
  const givenUses = given.flatMap((group) => Array.from({ length: group.uses }, () => useOf(group, [])));
  return new PairTable(first, second, { checks, given: givenUses, resources, stops });
}

/** One use of a group, still without charges and needs. */
function useOf(group: CheckGroup, members: readonly PairMember[]): PairCheck {
  const shifts = shiftsOf(group.likelihoodFirst, group.likelihoodSecond);
  return { members, costFirst: 0, costSecond: 0, needs: 0, resources: 0, affinity: affinityOf(group), shifts };
}

/** Checks that tell two hypotheses apart, each as often as it can still be done. */
function tellingChecks(
  instance: Instance,
  copies: Int32Array,
  [first, second]: readonly [number, number],
  price: (check: number, hypothesis: number) => number,
): TellingCheck[] {
  const found: TellingCheck[] = [];
  for (let check = 0; check < instance.checks; check++) {
    if ((copies[check] as number) <= 0) continue;
    const row = (h: number): Float64Array =>
      Float64Array.from(
        { length: instance.outcomes[check] as number },
        (_, o) => instance.likelihood[(instance.likelihoodAt[check] as number) + o * instance.hypotheses + h] as number,
      );
    const likelihoodFirst = row(first);
    const likelihoodSecond = row(second);
    if (!likelihoodFirst.some((chance, o) => Math.abs(chance - (likelihoodSecond[o] as number)) > 1e-9)) continue;
    found.push({
      check,
      copies: copies[check] as number,
      priceFirst: price(check, first),
      priceSecond: price(check, second),
      likelihoodFirst,
      likelihoodSecond,
    });
  }
  return found;
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
