import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decimals, figures, percent, signed, typedNumber } from '../../src/bench/calc/figures.ts';

describe('numbers as people type and read them', () => {
  test.each([
    ['12', 12],
    ['12,5', 12.5],
    [' −4.5 ', -4.5],
    ['+3', 3],
    ['.5', 0.5],
    ['5.', 5],
  ])('"%s" is a number', (text, value) => {
    expect(typedNumber(text)).toBe(value);
  });

  test.each(['', ' ', 'abc', '1.2.3', '1e5', '--2', '12 psi', '99999999999'])('"%s" is none', (text) => {
    expect(typedNumber(text)).toBeNull();
  });

  test.each([
    [1234.5, 4, '1235'],
    [0.000123456, 3, '0.000123'],
    [24.405, 3, '24.4'],
    [-0.5, 4, '−0.5'],
    [100, 4, '100'],
    [0, 4, '0'],
    [Number.POSITIVE_INFINITY, 4, '–'],
  ])('%d to %d figures reads "%s"', (value, digits, text) => {
    expect(figures(value, digits)).toBe(text);
  });

  test('a plus stands before trims above zero, and no zero carries a sign', () => {
    expect([signed(4), signed(-4), signed(0), signed(0.04), signed(-0.04)]).toEqual(['+4', '−4', '0', '0', '0']);
  });

  test('a share that is not certain never reads 0 or 100 percent', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), (share) => {
        expect(['0 %', '100 %']).not.toContain(percent(share));
      }),
    );
  });

  test('what is shown with six figures reads back as nearly the same number', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1e6, noNaN: true }), (value) => {
        expect(typedNumber(figures(value, 6))! / value).toBeCloseTo(1, 4);
      }),
    );
  });

  test('decimals drop what is not needed', () => {
    expect([decimals(2, 1), decimals(2.04, 1), decimals(2.06, 1)]).toEqual(['2', '2', '2.1']);
  });
});
