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

describe('the geometries that fit what is known', () => {
  const layouts = { inline: 0.6, v: 0.3, flat: 0.1 };
  const kinds = (engine: Parameters<typeof geometriesFor>[0], misfiring: number[] = []) =>
    geometriesFor(engine, misfiring, layouts).map(({ geometry }) => `${geometry.cylinders}:${geometry.firingOrder.join('-')}`);
  test('a count and a layout leave the usual orders of that engine, by their shares', () => {
    const found = geometriesFor({ cylinders: 4, layout: 'inline' }, [], layouts);
    expect(found.map(({ geometry, weight }) => [geometry.firingOrder.join('-'), Number(weight.toFixed(9))])).toEqual([
      ['1-3-4-2', 0.93],
      ['1-2-4-3', 0.07],
    ]);
    expect(found.map(({ geometry }) => geometry.banks)).toEqual([[[1, 2, 3, 4]], [[1, 2, 3, 4]]]);
  });
  test('a count alone leaves every layout of it, by how common each is', () => {
    const found = geometriesFor({ cylinders: 4 }, [], layouts);
    // .6 x .93, .6 x .07 and .1 x 1 for the flat one, together .7.
    expect(found.map(({ weight }) => weight * 0.7)).toEqual([expect.closeTo(0.558, 9), expect.closeTo(0.042, 9), expect.closeTo(0.1, 9)]);
    expect(found[2]!.geometry.banks).toEqual([
      [1, 3],
      [2, 4],
    ]);
  });
  test('a layout without a share among engines counts as one of ten', () => {
    const found = geometriesFor({ cylinders: 4 }, [], { inline: 0.9 });
    expect(found[2]!.weight).toBeCloseTo(0.1 / (0.9 + 0.1), 9);
  });
  test('a count known only by the length of the firing order', () => expect(kinds({ firingOrder: [1, 2, 3] })).toEqual(['3:1-2-3']));
  test('a firing order that does not fit the count is not used', () => {
    expect(kinds({ cylinders: 5, firingOrder: [1, 3, 4, 2] })).toEqual(['5:1-2-4-5-3']);
  });
  test('an engine for which no order is usual fires in the order of its numbers', () => {
    const [found] = geometriesFor({ cylinders: 10, layout: 'v' }, [], layouts);
    expect(found).toEqual({
      weight: 1,
      geometry: {
        cylinders: 10,
        firingOrder: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
        banks: [
          [1, 3, 5, 7, 9],
          [2, 4, 6, 8, 10],
        ],
      },
    });
  });
  test('a misfire on a cylinder that the count does not have is believed before the count', () => {
    expect(kinds({ cylinders: 4, layout: 'inline' }, [5])).toEqual(['5:1-2-4-5-3']);
    expect(kinds({}, [12])).toEqual(['12:1-2-3-4-5-6-7-8-9-10-11-12']);
  });
  test('a code for cylinder 8 leaves eight cylinders, one for cylinder 6 six or eight', () => {
    expect(new Set(geometriesFor({}, [8], layouts).map(({ geometry }) => geometry.cylinders))).toEqual(new Set([8]));
    expect(new Set(geometriesFor({}, [6, 1], layouts).map(({ geometry }) => geometry.cylinders))).toEqual(new Set([6, 8]));
    expect(new Set(geometriesFor({}, [], layouts).map(({ geometry }) => geometry.cylinders))).toEqual(new Set([3, 4, 5, 6, 8]));
  });
  test('the first bank that is told stands before the usual one; on an inline engine there is none', () => {
    const banks = (engine: Parameters<typeof geometriesFor>[0]) => geometriesFor(engine, [], layouts)[0]!.geometry.banks;
    expect(banks({ cylinders: 6, layout: 'v', bank1: [4, 5, 6] })).toEqual([
      [4, 5, 6],
      [1, 2, 3],
    ]);
    expect(banks({ cylinders: 6, layout: 'v' })).toEqual([
      [1, 3, 5],
      [2, 4, 6],
    ]);
    expect(banks({ cylinders: 6, layout: 'inline', bank1: [1, 2, 3] })).toEqual([[1, 2, 3, 4, 5, 6]]);
    expect(banks({ layout: 'v', firingOrder: [1, 2, 3, 4, 5, 6], bank1: [1, 2, 3] })).toEqual([
      [1, 2, 3],
      [4, 5, 6],
    ]);
  });
});

describe('odd cases of banks and sets', () => {
  test('a first bank of no cylinders or of all is none', () => {
    expect(banksOf(4, 'inline', [])).toEqual([[1, 2, 3, 4]]);
    expect(banksOf(4, 'inline', [1, 2, 3, 4])).toEqual([[1, 2, 3, 4]]);
    expect(banksOf(4, 'flat', undefined)).toEqual([
      [1, 3],
      [2, 4],
    ]);
  });
  test('all cylinders of an inline engine are no bank of it', () => expect(patternsOf([1, 2, 3, 4], four)).toEqual(['several']));
  test('P0300 beside one cylinder is rare for a fault of one cylinder', () => {
    expect(chanceOfSet([3], true, 'single', four)).toBeCloseTo(0.1 / 4, 12);
    expect(chanceOfSet([1, 2], false, 'single', four)).toBe(0);
  });
  test('a random misfire names no cylinder half the time, and any set of them else', () => {
    expect(chanceOfSet([], true, 'random', four)).toBe(0.5);
    expect(chanceOfSet([1, 2], true, 'random', four)).toBeCloseTo(0.5 / 15, 12);
    expect(chanceOfSet([1, 2], false, 'random', four)).toBeCloseTo(0.15 / 15, 12);
  });
  test('several means two or more, or P0300 alone', () => {
    expect(chanceOfSet([1], true, 'several', four)).toBe(0);
    expect(chanceOfSet([], false, 'several', four)).toBe(0);
    expect(chanceOfSet([], true, 'several', four)).toBeCloseTo(1 / 12, 12);
    expect(chanceOfSet([1, 4], false, 'several', four)).toBeCloseTo(1 / 12, 12);
  });
  test('an engine without companions or neighbours gives such a set no chance', () => {
    const three = { cylinders: 3, firingOrder: [1, 2, 3], banks: [[1, 2, 3]] };
    expect(chanceOfSet([1, 3], false, 'companion-pair', three)).toBe(0);
    expect(chanceOfSet([1, 2], false, 'neighbours', three)).toBeCloseTo(1 / 2, 12);
    expect(chanceOfSet([1, 4], false, 'companion-pair', four)).toBeCloseTo(1 / 2, 12);
  });
});
