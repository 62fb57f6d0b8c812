import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { silenceOf } from '../../src/bench/calc/without-the-code.ts';

describe('how long without the code', () => {
  test('the chance that it stays silent is the integral over the rate, summed by hand', () => {
    // Oracle: P(silent) = integral of e^(-r n) against Gamma(k + 1/2, t), by the midpoint rule.
    const [returns, exposure, clean] = [3, 600, 250];
    let weighted = 0;
    let weight = 0;
    const step = 1e-6;
    for (let rate = step / 2; rate < 0.06; rate += step) {
      const density = rate ** (returns - 0.5) * Math.exp(-rate * exposure);
      weight += density;
      weighted += density * Math.exp(-rate * clean);
    }
    expect(silenceOf(returns, exposure, 0.5, clean)!.silence).toBeCloseTo(weighted / weight, 6);
  });

  // Hanley and Lippman-Hand 1983: with none in n, at 95 % the rate is below about 3 / n.
  test('300 clean starts say less than once in about 100', () => {
    expect(silenceOf(3, 60, 0.8, 300)!.onceInMoreThan).toBeCloseTo(100, -0.5);
  });

  test('at the stretch that is said to be needed the chance is what was asked', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 30 }),
        fc.double({ min: 1, max: 1e4, noNaN: true }),
        fc.double({ min: 0.05, max: 0.89, noNaN: true }),
        (returns, exposure, right) => {
          for (const { target, clean } of silenceOf(returns, exposure, right, 0)!.needed)
            expect(silenceOf(returns, exposure, right, clean)!.fixed).toBeCloseTo(target, 6);
        },
      ),
    );
  });

  test('figures that cannot be give nothing', () => {
    expect([silenceOf(-1, 600, 0.8, 0), silenceOf(3, 0, 0.8, 0), silenceOf(3, 600, 1.2, 0), silenceOf(3, 600, 0.8, -1)]).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });
});
