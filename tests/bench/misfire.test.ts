import { describe, expect, test } from 'vitest';
import { knowledgeOrExit } from '../../scripts/content/knowledge.ts';
import {
  boreRadius,
  boresFromAbove,
  firingIntervalDegrees,
  geometryOf,
  misfireCode,
  readFiringOrder,
  scopeFits,
  sharedBy,
} from '../../src/bench/calc/misfire.ts';
import { usualFiringOrders } from '../../src/engine/belief/index.ts';

const { knowledge } = knowledgeOrExit();
const scopes = Object.values(knowledge.scopes);
const four = geometryOf([1, 3, 4, 2], 'inline');
const six = geometryOf([1, 2, 3, 4, 5, 6], 'v', [1, 3, 5]);
const reach = (misfiring: readonly number[], geometry = four) => scopeFits(misfiring, false, geometry, scopes)[0]!.scope.id;

describe('firing orders as people write them', () => {
  test.each(['1-3-4-2', '1 3 4 2', '1,3,4,2', '1342'])('"%s" is read', (text) => {
    expect(readFiringOrder(text)).toEqual([1, 3, 4, 2]);
  });

  test.each(['', '1', '1-3-4', '1-3-3-2', '0-1-2', '1-2-3-4-5-6-7-8-9-10-11-12-13'])('"%s" is none', (text) => {
    expect(readFiringOrder(text)).toBeNull();
  });
});

describe('what misfiring cylinders share', () => {
  // Vocational textbook on waste-spark ignition: write the second half of the firing order under the first, read the columns.
  test.each([
    [
      [1, 3, 4, 2],
      [
        [1, 4],
        [3, 2],
      ],
    ],
    [
      [1, 6, 5, 4, 3, 2],
      [
        [1, 4],
        [6, 3],
        [5, 2],
      ],
    ],
    [
      [1, 8, 4, 3, 6, 5, 7, 2],
      [
        [1, 6],
        [8, 5],
        [4, 7],
        [3, 2],
      ],
    ],
  ])('companions of %j', (order, pairs) => {
    const all = order.map((_, index) => index + 1);
    expect(sharedBy(all, geometryOf(order, 'inline')).companions).toEqual(pairs);
  });

  test('1 and 4 of 1-3-4-2 are companions and no neighbours; 2 and 3 are both', () => {
    expect(sharedBy([1, 4], four).patterns).toEqual(['companion-pair', 'several']);
    expect(sharedBy([2, 3], four).patterns).toEqual(['companion-pair', 'neighbours', 'several']);
  });

  test('1, 3 and 5 of a V6 are its whole first bank; 1 and 5 only lie inside it', () => {
    expect(sharedBy([1, 3, 5], six)).toMatchObject({ wholeBank: 0, insideBank: 0 });
    expect(sharedBy([1, 5], six)).toMatchObject({ wholeBank: null, insideBank: 0 });
    expect(sharedBy([1, 2], six)).toMatchObject({ wholeBank: null, insideBank: null });
  });

  test('the reach that fits best is the plain one', () => {
    expect(reach([3])).toBe('one-cylinder');
    expect(reach([1, 4])).toBe('coil-pair');
    expect(reach([1, 2])).toBe('neighbours');
    expect(reach([1, 3, 5], six)).toBe('bank');
    expect(scopeFits([], true, four, scopes)[0]!.scope.id).toBe('all-cylinders');
  });

  test('shares of the reaches sum to one for every set of cylinders of every usual engine', () => {
    for (const { order, layout, bank1 } of usualFiringOrders) {
      const geometry = geometryOf(order, layout, bank1);
      for (let set = 1; set < 2 ** order.length; set++) {
        const misfiring = order.map((_, index) => index + 1).filter((cylinder) => set & (1 << (cylinder - 1)));
        const sum = scopeFits(misfiring, false, geometry, scopes).reduce((total, { share }) => total + share, 0);
        expect(sum).toBeCloseTo(1, 9);
      }
    }
  });

  test('nothing marked and no code for several: nothing is said', () => {
    expect(scopeFits([], false, four, scopes)).toEqual([]);
  });
});

describe('the engine from above', () => {
  test('every cylinder is drawn once, no two overlap, and cylinder 1 is foremost on its bank', () => {
    for (const { order, layout, bank1 } of usualFiringOrders) {
      const bores = boresFromAbove(geometryOf(order, layout, bank1));
      expect(bores.map(({ cylinder }) => cylinder).sort((a, b) => a - b)).toEqual(order.map((_, index) => index + 1));
      for (const a of bores)
        for (const b of bores) if (a !== b) expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThanOrEqual(2 * boreRadius);
      expect(Math.min(...bores.map(({ x }) => x))).toBe(bores.find(({ cylinder }) => cylinder === 1)!.x);
    }
  });

  test('an engine in line is one row, a V or flat engine two', () => {
    const rows = (geometry: typeof four) => new Set(boresFromAbove(geometry).map(({ y }) => y)).size;
    expect([rows(four), rows(six)]).toEqual([1, 2]);
  });

  test('four cylinders fire every 180 degrees, five every 144', () => {
    for (let count = 2; count <= 12; count++) expect(firingIntervalDegrees(count) * count).toBeCloseTo(720, 9);
    expect([firingIntervalDegrees(4), firingIntervalDegrees(5)]).toEqual([180, 144]);
  });

  // SAE J2012: P0301 to P0312.
  test('codes of cylinders 1 and 12', () => {
    expect([misfireCode(1), misfireCode(12)]).toEqual(['P0301', 'P0312']);
  });
});
