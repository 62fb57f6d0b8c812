import type { Instance } from './instance.ts';
import { forcedChecks } from './known-cost.ts';
import { type PairCheck, type PairRepair, type PairResource, PairTable } from './pair-table.ts';

/** More resources than this are taken as free of charge: the key of a table has so many bits for them. */
const MOST_RESOURCES = 6;

/** The two sides of a pair: hypotheses and the repairs that end the problem of each. */
export interface PairSides {
  readonly first: number;
  readonly second: number;
  readonly repairsFirst: readonly number[];
  readonly repairsSecond: readonly number[];
}

/**
 * Lays out the problem of one pair, still without charges: the checks that tell the two apart best (as many as
 * `mostChecks`; the rest are given away), what must come before them, and the resources that they and the repairs need.
 * `copies` says how often each check can still be done.
 */
export function buildPair(instance: Instance, status: Uint8Array, copies: Int32Array, sides: PairSides, mostChecks: number): PairTable {
  const { first, second } = sides;
  const n = instance.hypotheses;
  const informative: { check: number; affinity: number }[] = [];
  for (let check = 0; check < instance.checks; check++) {
    if ((copies[check] as number) <= 0) continue;
    let affinity = 0;
    const at = instance.likelihoodAt[check] as number;
    for (let o = 0; o < (instance.outcomes[check] as number); o++) {
      affinity += Math.sqrt((instance.likelihood[at + o * n + first] as number) * (instance.likelihood[at + o * n + second] as number));
    }
    for (let copy = 0; affinity < 1 - 1e-9 && copy < (copies[check] as number); copy++) informative.push({ check, affinity });
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
    return at < MOST_RESOURCES ? 1 << at : 0;
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
  const repairs = { repairsFirst: sides.repairsFirst.map(repair), repairsSecond: sides.repairsSecond.map(repair) };
  resources.length = Math.min(resources.length, MOST_RESOURCES);
  return new PairTable(first, second, { checks, free, resources, ...repairs });
}
