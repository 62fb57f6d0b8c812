import { describe, expect, it } from 'vitest';
import { groupChecks, type TellingCheck } from '../../../src/engine/plan/pair-group.ts';
import { seeded } from './seeded.ts';

describe('groups of checks that a pair takes for one', () => {
  // Two experiments on two hypotheses: one tells at least as much as another if and only if its Bayes risk is no greater at any
  // prior (Blackwell 1953). The least that tells as much as both has the lesser of the two risks everywhere.
  it('tell exactly as much as the most telling member does, at every belief', () => {
    let merged = 0;
    for (let start = 1; start <= 200; start++) {
      const random = seeded(start);
      const checks = [0, 1].map((check) => tellingCheck(check, 10, random));
      const [group, ...others] = groupChecks(checks, 3).paid;
      if (!group || others.length > 0 || group.members.length < 2) continue;
      merged++;
      expect(sum(group.likelihoodFirst)).toBeCloseTo(1, 9);
      expect(sum(group.likelihoodSecond)).toBeCloseTo(1, 9);
      for (let p = 0.02; p < 1; p += 0.02) {
        const least = Math.min(...checks.map((check) => bayesRisk(check, p)));
        expect(bayesRisk(group, p)).toBeCloseTo(least, 9);
      }
    }
    expect(merged).toBeGreaterThan(30);
  });

  it('leave no more sets to solve than asked for, and lose no performance of any check', () => {
    for (let start = 1; start <= 60; start++) {
      const random = seeded(start);
      const checks = Array.from({ length: 1 + Math.floor(random() * 20) }, (_, check) =>
        tellingCheck(check, 1 + 40 * random(), random, random() < 0.1 ? 2 : 1),
      );
      for (const mostSets of [1, 2, 8, 64, 500]) {
        const { paid, given } = groupChecks(checks, mostSets);
        expect(paid.reduce((sets, { uses }) => sets * (uses + 1), 1)).toBeLessThanOrEqual(mostSets);
        const all = [...paid, ...given];
        expect(all.flatMap(({ members }) => members.map(({ check }) => check)).sort((a, b) => a - b)).toEqual(checks.map((_, i) => i));
        for (const { uses, members } of all) expect(uses).toBe(sum(members.map(({ copies }) => copies)));
      }
    }
  });

  it('stay apart while there is room for each', () => {
    const random = seeded(5);
    const checks = [0, 1, 2, 3].map((check) => tellingCheck(check, 10, random));
    const { paid, given } = groupChecks(checks, 16);
    expect(paid.map(({ members }) => members.length)).toEqual([1, 1, 1, 1]);
    expect(given).toEqual([]);
  });

  it('put checks of like price and worth together first', () => {
    const like = (check: number, price: number, hit: number): TellingCheck => ({
      ...{ check, copies: 1, priceFirst: price, priceSecond: price },
      ...{ likelihoodFirst: Float64Array.of(hit, 1 - hit), likelihoodSecond: Float64Array.of(1 - hit, hit) },
    });
    const { paid } = groupChecks([like(0, 5, 0.9), like(1, 60, 0.9), like(2, 5.5, 0.91), like(3, 60, 0.97)], 12);
    expect(paid.map(({ members }) => members.map(({ check }) => check).sort())).toContainEqual([0, 2]);
  });

  it('give away what tells next to nothing rather than make it as telling as the rest', () => {
    const check = (number: number, hit: number, falseAlarm: number): TellingCheck => ({
      ...{ check: number, copies: 1, priceFirst: 10, priceSecond: 10 },
      ...{ likelihoodFirst: Float64Array.of(hit, 1 - hit), likelihoodSecond: Float64Array.of(falseAlarm, 1 - falseAlarm) },
    });
    const { paid, given } = groupChecks([check(0, 0.95, 0.05), check(1, 0.31, 0.3)], 2);
    expect(paid.flatMap(({ members }) => members.map((member) => member.check))).toEqual([0]);
    expect(given.flatMap(({ members }) => members.map((member) => member.check))).toEqual([1]);
  });
});

function tellingCheck(check: number, price: number, random: () => number, copies = 1): TellingCheck {
  const row = (): Float64Array => {
    const raw = Array.from({ length: 3 }, () => random() + 0.01);
    return Float64Array.from(raw, (x) => x / sum(raw));
  };
  return { check, copies, priceFirst: price, priceSecond: price, likelihoodFirst: row(), likelihoodSecond: row() };
}

/** The chance to name the wrong one of two hypotheses after the check, the first having prior p. */
function bayesRisk({ likelihoodFirst, likelihoodSecond }: Pick<TellingCheck, 'likelihoodFirst' | 'likelihoodSecond'>, p: number): number {
  return sum(Array.from(likelihoodFirst, (first, o) => Math.min(p * first, (1 - p) * (likelihoodSecond[o] as number))));
}

function sum(list: Iterable<number>): number {
  return [...list].reduce((total, x) => total + x, 0);
}
