import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readRise, readSpread, riseWithOil, spreadOf } from '../../src/bench/calc/compression.ts';
import { leakage, readLeakage } from '../../src/bench/calc/leak-down.ts';

const inline = (cylinders: number) => [Array.from({ length: cylinders }, (_, index) => index + 1)];
const read = (readings: readonly (number | null)[], banks = inline(readings.length)) => readSpread(spreadOf(readings)!, banks);

describe('compression spread', () => {
  // United States Army TM 5-4210-230-14&P-1, addendum 2: the lowest not below 75 percent of the highest.
  test('exactly 75 percent still counts as even, a little less does not', () => {
    expect(read([1000, 750, 900, 980])).toBe('even');
    expect(read([1000, 749, 900, 980])).toBe('one-low');
  });

  // The same manual: two neighbours low point to the head gasket between them.
  test('two low neighbours are told from two low cylinders that are apart', () => {
    expect(read([1100, 600, 620, 1080])).toBe('neighbours-low');
    expect(read([600, 1100, 620, 1080])).toBe('uneven');
  });

  test('neighbours by number on different banks are no neighbours', () => {
    expect(
      read(
        [1100, 1090, 600, 620, 1080, 1100],
        [
          [1, 2, 3],
          [4, 5, 6],
        ],
      ),
    ).toBe('uneven');
  });

  // TM 10-3930-618-20, 2-12: within 10 psi of each other.
  test('the stricter handbook passes 120 to 125 psi and fails 110 to 125 psi', () => {
    const psi = (values: readonly number[]) => spreadOf(values.map((value) => value * 6.894757))!.withinStrictSpread;
    expect([psi([120, 125, 122, 124]), psi([110, 125, 122, 124])]).toEqual([true, false]);
  });

  test('the spread is the same in any unit, and no cylinder is above the highest', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 100, max: 2000, noNaN: true }), { minLength: 2, maxLength: 12 }),
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        (readings, factor) => {
          const spread = spreadOf(readings)!;
          expect(spreadOf(readings.map((value) => value * factor))!.share).toBeCloseTo(spread.share, 9);
          expect(Math.max(...spread.shares.map((share) => share!))).toBe(1);
          expect(Math.min(...spread.shares.map((share) => share!))).toBe(spread.share);
          expect(spread.low.length === 0).toBe(readSpread(spread, inline(readings.length)) === 'even');
        },
      ),
    );
  });

  test('cylinders not read are passed over; one reading alone says nothing', () => {
    expect(spreadOf([1000, null, 700, null])!.low).toEqual([2]);
    expect(spreadOf([1000, null])).toBeNull();
    expect(spreadOf([0, 0])).toBeNull();
    expect(spreadOf([-5, 100])).toBeNull();
  });
});

describe('test with oil', () => {
  // TM 5-4210-230: a clear rise is the rings, none is the valves. A fifth as "clear" is common practice, no source.
  test('110 to 150 psi is a clear rise, 110 to 115 psi is none', () => {
    expect([readRise(riseWithOil(110, 150)!), readRise(riseWithOil(110, 115)!)]).toEqual(['rises', 'stays']);
  });

  test('without both readings there is no rise', () => {
    expect([riseWithOil(null, 150), riseWithOil(110, null), riseWithOil(0, 10)]).toEqual([null, null, null]);
  });
});

describe('leak-down', () => {
  test('100 fed and 72 held is 28 percent lost', () => {
    expect(leakage(100, 72)).toBeCloseTo(0.28, 12);
  });

  // Common practice, no source: about 10 percent good, 20 fair, 30 bad.
  test('8, 15 and 30 percent read as good, fair and poor', () => {
    expect([0.08, 0.15, 0.3].map(readLeakage)).toEqual(['good', 'fair', 'poor']);
  });

  test('more held than fed cannot be', () => {
    expect([leakage(100, 101), leakage(0, 0), leakage(100, -1)]).toEqual([null, null, null]);
  });
});
