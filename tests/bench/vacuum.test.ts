import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  barometerKpa,
  carriedToSeaLevelKpa,
  expectedByAtmosphereKpa,
  expectedByRuleKpa,
  kPaPerInHg,
  manifoldAbsoluteKpa,
} from '../../src/bench/calc/vacuum.ts';

const metres = (feet: number) => feet * 0.3048;

describe('vacuum against altitude', () => {
  // US Standard Atmosphere 1976: bases of its layers as an encyclopaedia prints them (read in a second source).
  test.each([
    [0, 101.325],
    [11_000, 22.6321],
  ])('the barometer at %d m is that of the standard atmosphere', (altitude, kPa) => {
    expect(barometerKpa(altitude)).toBeCloseTo(kPa, 3);
  });

  // Table of the standard atmosphere in feet and psia, as a handbook page prints it (read in a second source).
  test.each([
    [-1000, 15.236],
    [1000, 14.175],
    [3000, 13.173],
    [5000, 12.23],
    [10_000, 10.108],
  ])('the barometer at %d ft agrees with the printed table to a thousandth', (feet, psia) => {
    expect(barometerKpa(metres(feet))! / 6.894757 / psia).toBeCloseTo(1, 3);
  });

  // OD1001, lesson 3: about 20 inHg at sea level; at 5,000 ft 5 inHg less.
  test('the rule gives 15 inHg at 5,000 ft for an engine of 20 inHg', () => {
    expect(expectedByRuleKpa(20 * kPaPerInHg, metres(5000)) / kPaPerInHg).toBeCloseTo(15, 10);
  });

  test('rule and atmosphere agree within 0.1 inHg up to 5,000 ft and part by 0.7 inHg at 10,000 ft', () => {
    const difference = (feet: number) =>
      (expectedByAtmosphereKpa(20 * kPaPerInHg, metres(feet))! - expectedByRuleKpa(20 * kPaPerInHg, metres(feet))) / kPaPerInHg;
    for (const feet of [0, 1000, 2000, 3000, 4000, 5000]) expect(Math.abs(difference(feet))).toBeLessThan(0.15);
    expect(difference(10_000)).toBeCloseTo(0.66, 2);
  });

  test('a reading carried to sea level and back is the same reading', () => {
    fc.assert(
      fc.property(fc.double({ min: 30, max: 70, noNaN: true }), fc.double({ min: 0, max: 3000, noNaN: true }), (reading, height) => {
        expect(expectedByRuleKpa(carriedToSeaLevelKpa(reading, height), height)).toBeCloseTo(reading, 8);
      }),
    );
  });

  test('20 inHg at sea level leaves 33.6 kPa in the manifold', () => {
    expect(manifoldAbsoluteKpa(20 * kPaPerInHg, 0)).toBeCloseTo(33.6, 1);
  });

  test('nothing is claimed above the layer, or for more vacuum than there is air', () => {
    expect([barometerKpa(11_001), barometerKpa(Number.NaN), manifoldAbsoluteKpa(102, 0)]).toEqual([null, null, null]);
  });
});
