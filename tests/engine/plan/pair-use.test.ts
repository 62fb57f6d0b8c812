import { describe, expect, it } from 'vitest';
import { readValue, shiftsOf } from '../../../src/engine/plan/pair-grid.ts';
import { HAND_OVER, type PairCharge, type PairCheck, type PairMember, PairTable } from '../../../src/engine/plan/pair-table.ts';
import { measureUse } from '../../../src/engine/plan/pair-use.ts';
import { seeded } from './seeded.ts';

describe('how much each charge of a pair is used', () => {
  it('is the derivative of its value: what a small rise of the charge adds', () => {
    let compared = 0;
    for (let start = 1; start <= 60; start++) {
      const random = seeded(start);
      const { pair, charges } = randomPair(random);
      const first = 0.1 + random();
      const second = 0.1 + random();
      const left = (1 << pair.checks.length) - 1;
      const value = (): number => {
        pair.clear();
        return readValue(pair.values(left, 0), first, second, Math.log(first), Math.log(second));
      };
      value();
      const uses = new Map<PairCharge, [number, number]>();
      measureUse({ pair, left, paid: 0, first, second }, (item, a, b) => {
        const [x, y] = uses.get(item) ?? [0, 0];
        uses.set(item, [x + a, y + b]);
      });
      const small = 1e-7;
      for (const charge of charges) {
        for (const [side, key] of [['costFirst', 0] as const, ['costSecond', 1] as const]) {
          const before = charge[side];
          charge[side] = before + small;
          const above = value();
          charge[side] = before - small;
          const below = value();
          charge[side] = before;
          const use = uses.get(charge)?.[key] ?? 0;
          expect(use).toBeCloseTo((above - below) / (2 * small), 5);
          compared++;
        }
      }
    }
    expect(compared).toBeGreaterThan(500);
  });

  it('is what is paid in all where every charge is used: the value itself', () => {
    const { pair, charges } = randomPair(seeded(7));
    pair.clear();
    const left = (1 << pair.checks.length) - 1;
    let paid = 0;
    measureUse({ pair, left, paid: 0, first: 0.4, second: 0.6 }, (item, a, b) => {
      expect(charges).toContain(item);
      paid += a * item.costFirst + b * item.costSecond;
    });
    expect(paid).toBeCloseTo(readValue(pair.values(left, 0), 0.4, 0.6, Math.log(0.4), Math.log(0.6)), 9);
  });
});

/** Four checks, the last two with a set-up in common; a fifth given away; a repair for each hypothesis and handing over. */
function randomPair(random: () => number): { pair: PairTable; charges: PairCharge[] } {
  const row = (): Float64Array => {
    const hit = 0.05 + 0.9 * random();
    return Float64Array.of(hit, 1 - hit);
  };
  const check = (number: number, resources: number, members?: readonly PairMember[]): PairCheck => ({
    members: members ?? [{ check: number, costFirst: 1 + 9 * random(), costSecond: 1 + 9 * random() }],
    ...{ costFirst: 0, costSecond: 0, needs: 0, resources, affinity: 0, shifts: shiftsOf(row(), row()) },
  });
  const checks = [check(0, 0), check(1, 0), check(2, 1), check(3, 1)];
  const resource = { resource: 9, costFirst: 3 * random(), costSecond: 3 * random() };
  const stop = (repair: number, fixesFirst: boolean, fixesSecond: boolean, costFirst: number, costSecond: number) => ({
    ...{ repair, fixesFirst, fixesSecond, costFirst, costSecond },
    resources: 0,
  });
  const stops = [
    stop(0, true, false, 0, 20 + 50 * random()),
    stop(1, false, true, 20 + 50 * random(), 0),
    stop(HAND_OVER, true, true, 30, 30),
  ];
  const pair = new PairTable(0, 1, { checks, given: [check(4, 0, [])], resources: [resource], stops });
  return { pair, charges: [...checks.flatMap(({ members }) => members), resource, ...stops] };
}
