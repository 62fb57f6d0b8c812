import { describe, expect, test } from 'vitest';
import {
  banksOf,
  chanceOfSet,
  companionPairs,
  cylinderPatterns,
  neighbourPairs,
  patternsOf,
  usualFiringOrders,
} from '../../../src/engine/belief/cylinders.ts';
import { geometriesFor } from '../../../src/engine/belief/geometry.ts';

const four = { cylinders: 4, firingOrder: [1, 3, 4, 2], banks: [[1, 2, 3, 4]] };
const pairs = (order: number[]) => companionPairs(order).map((pair) => [...pair].sort((a, b) => a - b).join('+'));

describe('companion cylinders: the second half of the firing order under the first (vocational textbook on waste-spark ignition)', () => {
  test.each([
    [
      [1, 3, 4, 2],
      ['1+4', '2+3'],
    ],
    [
      [1, 3, 2, 4],
      ['1+2', '3+4'],
    ],
    // The worked case of the textbook.
    [
      [1, 6, 5, 4, 3, 2],
      ['1+4', '3+6', '2+5'],
    ],
    [
      [1, 5, 3, 6, 2, 4],
      ['1+6', '2+5', '3+4'],
    ],
    [
      [1, 2, 3, 4, 5, 6],
      ['1+4', '2+5', '3+6'],
    ],
    [
      [1, 8, 4, 3, 6, 5, 7, 2],
      ['1+6', '5+8', '4+7', '2+3'],
    ],
    [
      [1, 8, 7, 2, 6, 5, 4, 3],
      ['1+6', '5+8', '4+7', '2+3'],
    ],
    [
      [1, 3, 7, 2, 6, 5, 4, 8],
      ['1+6', '3+5', '4+7', '2+8'],
    ],
    [
      [1, 5, 4, 2, 6, 3, 7, 8],
      ['1+6', '3+5', '4+7', '2+8'],
    ],
  ])('%j', (order, expected) => {
    expect(pairs(order).sort()).toEqual(expected.sort());
  });

  test('an engine with an odd number of cylinders has none', () => {
    expect(companionPairs([1, 2, 4, 5, 3])).toEqual([]);
  });

  test('every usual firing order names each cylinder once, and shares of a kind of engine sum to 1', () => {
    const sums = new Map<string, number>();
    for (const { order, layout, share, bank1 } of usualFiringOrders) {
      expect([...order].sort((a, b) => a - b)).toEqual(order.map((_, index) => index + 1));
      expect(bank1.length).toBe(layout === 'inline' ? order.length : order.length / 2);
      sums.set(`${order.length} ${layout}`, (sums.get(`${order.length} ${layout}`) ?? 0) + share);
    }
    for (const [kind, sum] of sums) expect(sum, kind).toBeCloseTo(1, 9);
  });
});

describe('the pattern of a set of misfiring cylinders', () => {
  test('one cylinder', () => expect(patternsOf([3], four)).toEqual(['single']));
  test('a companion pair that is no pair of neighbours', () => expect(patternsOf([1, 4], four)).toEqual(['companion-pair', 'several']));
  test('neighbours that are also companions', () => expect(patternsOf([2, 3], four)).toEqual(['companion-pair', 'neighbours', 'several']));
  test('neighbours only', () => expect(patternsOf([1, 2], four)).toEqual(['neighbours', 'several']));
  test('a whole bank of a V engine', () =>
    expect(
      patternsOf([1, 3, 5], {
        cylinders: 6,
        firingOrder: [1, 2, 3, 4, 5, 6],
        banks: [
          [1, 3, 5],
          [2, 4, 6],
        ],
      }),
    ).toEqual(['one-bank', 'several']));
  test('no cylinder named', () => expect(patternsOf([], four)).toEqual(['random']));

  test.each(cylinderPatterns.filter((pattern) => pattern !== 'random'))(
    'chances of all sets under %s sum to 1, with or without the code for several',
    (pattern) => {
      const sets = Array.from({ length: 16 }, (_, bits) => [1, 2, 3, 4].filter((cylinder) => bits & (1 << (cylinder - 1))));
      const sum = sets.reduce(
        (total, set) =>
          total +
          chanceOfSet(set, set.length !== 1, pattern, {
            ...four,
            banks: [
              [1, 3],
              [2, 4],
            ],
          }),
        0,
      );
      expect(sum).toBeCloseTo(1, 9);
    },
  );

  test('banks: by the first bank given, by odd and even on a V, one on an inline engine', () => {
    expect(banksOf(6, 'v', [1, 2, 3])).toEqual([
      [1, 2, 3],
      [4, 5, 6],
    ]);
    expect(banksOf(6, 'v', undefined)).toEqual([
      [1, 3, 5],
      [2, 4, 6],
    ]);
    expect(banksOf(4, 'inline', undefined)).toEqual([[1, 2, 3, 4]]);
    expect(
      neighbourPairs([
        [1, 3, 5],
        [2, 4, 6],
      ]),
    ).toEqual([
      [1, 3],
      [3, 5],
      [2, 4],
      [4, 6],
    ]);
  });
});

describe('what is not known of the engine is averaged over what is usual', () => {
  const layouts = { inline: 0.68, v: 0.27, flat: 0.05 };
  test('weights sum to 1 and a stated firing order is the only one', () => {
    expect(geometriesFor({}, [1], layouts).reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9);
    const told = geometriesFor({ cylinders: 4, firingOrder: [1, 3, 4, 2] }, [1], layouts);
    expect(told.map(({ geometry }) => geometry.firingOrder)).toEqual([[1, 3, 4, 2]]);
  });
  test('a code for cylinder 7 rules out smaller engines', () => {
    expect(geometriesFor({}, [7], layouts).every(({ geometry }) => geometry.cylinders >= 7)).toBe(true);
  });
});
