import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  chanceFixed,
  chanceOfSilence,
  cleanNeeded,
  meanRate,
  rateAfter,
  upperBoundOfChance,
  upperBoundOfRate,
} from '../../../src/engine/proof/index.ts';

const history = fc.record({ returns: fc.integer({ min: 0, max: 30 }), exposure: fc.double({ min: 0.5, max: 5000, noNaN: true }) });
const belief = fc.double({ min: 0.02, max: 0.98, noNaN: true });
const stretch = fc.double({ min: 0, max: 20_000, noNaN: true });

/** Integral over the rate of exp(-rate n) times its Gamma density, by Simpson's rule in log-rate: an independent oracle. */
function silenceByQuadrature(shape: number, rate: number, clean: number): number {
  const steps = 20_000;
  const low = Math.log(1e-14 / rate);
  const high = Math.log((shape + 60 + 12 * Math.sqrt(shape)) / rate);
  let above = 0;
  let below = 0;
  for (let i = 0; i <= steps; i++) {
    const logRate = low + ((high - low) * i) / steps;
    const r = Math.exp(logRate);
    const weight = (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * Math.exp(shape * logRate - rate * r);
    below += weight;
    above += weight * Math.exp(-r * clean);
  }
  return above / below;
}

describe('published examples', () => {
  // Gelman et al., Bayesian Data Analysis, 3rd ed., section 2.6: asthma mortality, prior Gamma(3, 5), x = 2 (in 100,000), y = 3.
  test('asthma mortality: the rate becomes Gamma(6, 7) with mean 0.86', () => {
    const rate = rateAfter({ returns: 3, exposure: 2 }, { shape: 3, rate: 5 });
    expect(rate).toEqual({ shape: 6, rate: 7 });
    expect(meanRate(rate)).toBeCloseTo(0.86, 2);
  });

  test('asthma mortality over ten years: Gamma(33, 25) with mean 1.32', () => {
    const rate = rateAfter({ returns: 30, exposure: 20 }, { shape: 3, rate: 5 });
    expect(rate).toEqual({ shape: 33, rate: 25 });
    expect(meanRate(rate)).toBeCloseTo(1.32, 10);
  });

  // Hoff, A First Course in Bayesian Statistical Methods (2009), section 3.2: prior Gamma(2, 1); 217 births to 111 women, 66 to 44.
  test('birth rates: posterior means 1.955 and 1.511', () => {
    expect(meanRate(rateAfter({ returns: 217, exposure: 111 }, { shape: 2, rate: 1 }))).toBeCloseTo(1.955, 3);
    expect(meanRate(rateAfter({ returns: 66, exposure: 44 }, { shape: 2, rate: 1 }))).toBeCloseTo(1.511, 3);
  });

  // The textbook screening example: 1 % prior, a test positive in 80 % of the ill and 9.6 % of the well gives 7.76 %.
  test('a stretch whose silence is as telling as that screening test moves 1 % to 7.76 %', () => {
    const rate = rateAfter({ returns: 4, exposure: 300 });
    const clean = rate.rate * ((0.096 / 0.8) ** (-1 / rate.shape) - 1);
    expect(chanceOfSilence(rate, clean)).toBeCloseTo(0.12, 12);
    expect(chanceFixed(0.01, rate, clean)).toBeCloseTo(0.0776, 4);
  });

  // Hanley & Lippman-Hand 1983, JAMA 249:1743-1745: with 0 of n, the upper 95 % bound is close to 3/n once n is above 30.
  test('the rule of three holds within 6 % from thirty on, for rates and for chances', () => {
    for (const trials of [30, 50, 100, 300, 1000]) {
      expect(Math.abs(upperBoundOfRate(trials) / (3 / trials) - 1)).toBeLessThan(0.06);
      expect(Math.abs(upperBoundOfChance(trials) / (3 / trials) - 1)).toBeLessThan(0.06);
    }
  });

  test('the exact bound for few trials is well under the rule: 0.63 for three, not 1', () => {
    expect(upperBoundOfChance(3)).toBeCloseTo(0.6316, 4);
  });
});

test('with a known rate the clock is the rule of three: three mean intervals of silence leave 5 %', () => {
  // A history so long that the rate is all but known.
  const rate = rateAfter({ returns: 1e6, exposure: 1e6 });
  expect(chanceOfSilence(rate, 3)).toBeCloseTo(Math.exp(-3), 4);
});

test('silence agrees with numerical integration over the rate', () => {
  for (const [returns, exposure, clean] of [
    [0, 100, 50],
    [1, 100, 300],
    [3, 400, 100],
    [12, 60, 30],
  ] as const) {
    const rate = rateAfter({ returns, exposure });
    expect(chanceOfSilence(rate, clean)).toBeCloseTo(silenceByQuadrature(rate.shape, rate.rate, clean), 6);
  }
});

test('the clean stretch needed is where the chance reaches the target', () => {
  fc.assert(
    fc.property(history, belief, fc.constantFrom(0.9, 0.95, 0.99), (past, right, target) => {
      const rate = rateAfter(past);
      const needed = cleanNeeded(right, rate, target);
      if (needed === 0) expect(right).toBeGreaterThanOrEqual(target);
      else if (needed < 1e12) expect(chanceFixed(right, rate, needed)).toBeCloseTo(target, 8);
    }),
  );
});

test('more silence never makes the repair less likely, and a code that came oftener proves it sooner', () => {
  fc.assert(
    fc.property(history, belief, stretch, stretch, (past, right, one, two) => {
      const [shorter, longer] = one < two ? [one, two] : [two, one];
      const rate = rateAfter(past);
      expect(chanceFixed(right, rate, longer)).toBeGreaterThanOrEqual(chanceFixed(right, rate, shorter) - 1e-12);
      const oftener = rateAfter({ ...past, returns: past.returns + 1 });
      expect(chanceFixed(right, oftener, longer)).toBeGreaterThanOrEqual(chanceFixed(right, rate, longer) - 1e-12);
    }),
  );
});

test('the unit does not matter: kilometres or miles give the same chance', () => {
  fc.assert(
    fc.property(history, belief, stretch, (past, right, clean) => {
      const inMiles = rateAfter({ returns: past.returns, exposure: past.exposure / 1.609344 });
      expect(chanceFixed(right, inMiles, clean / 1.609344)).toBeCloseTo(chanceFixed(right, rateAfter(past), clean), 10);
    }),
  );
});

test('two clean stretches are worth as much as one of their sum', () => {
  fc.assert(
    fc.property(history, belief, stretch, stretch, (past, right, first, second) => {
      const rate = rateAfter(past);
      const midway = chanceFixed(right, rate, first);
      // After the first stretch the rate, were the fault still there, has seen that silence too.
      const then = { shape: rate.shape, rate: rate.rate + first };
      expect(chanceFixed(midway, then, second)).toBeCloseTo(chanceFixed(right, rate, first + second), 9);
    }),
  );
});

test('a history that gives no rate is refused with what was given', () => {
  expect(() => rateAfter({ returns: 1, exposure: 0 })).toThrow(RangeError);
  expect(() => rateAfter({ returns: -1, exposure: 10 })).toThrow('-1 returns in 10');
  expect(() => rateAfter({ returns: Number.NaN, exposure: 10 })).toThrow(RangeError);
});

describe('edges of the clock', () => {
  const rate = { shape: 2.5, rate: 100 };
  test('no history of returns is a history, as long as there is a stretch', () => {
    expect(rateAfter({ returns: 0, exposure: 5 })).toEqual({ shape: 0.5, rate: 5 });
    expect(rateAfter({ returns: 0, exposure: 0 }, { shape: 1, rate: 2 })).toEqual({ shape: 1, rate: 2 });
  });
  test.each([
    [-1, 5],
    [1, -5],
    [Number.NaN, 5],
    [1, Number.NaN],
    [Number.POSITIVE_INFINITY, 5],
    [1, Number.POSITIVE_INFINITY],
  ])('%d returns in %d are refused', (returns, exposure) => {
    expect(() => rateAfter({ returns, exposure })).toThrow(`history must be finite and not negative: ${returns} returns in ${exposure}`);
  });
  test('no stretch at all leaves no rate', () => {
    expect(() => rateAfter({ returns: 1, exposure: 0 })).toThrow('the exposure must be above zero');
  });
  test('a repair that cannot have been right is proven by no silence, and one that must have been needs none', () => {
    expect(chanceFixed(0, rate, 1e9)).toBe(0);
    expect(chanceFixed(1, rate, 0)).toBe(1);
    expect(chanceFixed(0.5, rate, 0)).toBeCloseTo(0.5, 12);
  });
  test('nothing is needed where the target is reached, and nothing suffices for certainty', () => {
    expect(cleanNeeded(0.9, rate, 0.9)).toBe(0);
    expect(cleanNeeded(0.95, rate, 0.9)).toBe(0);
    expect(cleanNeeded(1, rate, 1)).toBe(0);
    expect(cleanNeeded(0.5, rate, 1)).toBe(Number.POSITIVE_INFINITY);
    expect(cleanNeeded(0, rate, 0.9)).toBe(Number.POSITIVE_INFINITY);
    expect(cleanNeeded(0.5, rate, 0.9)).toBeGreaterThan(0);
  });
  test('as much is needed as leaves the fault one chance in nine of staying silent, for 90 % from an even start', () => {
    // Three returns in 600: Gamma(3.5, 600). (600 / (600 + n))^3.5 = 1/9 at n = 600 (9^(1/3.5) - 1).
    const past = rateAfter({ returns: 3, exposure: 600 });
    expect(cleanNeeded(0.5, past, 0.9)).toBeCloseTo(600 * (9 ** (1 / 3.5) - 1), 6);
    expect(cleanNeeded(0.5, past, 0.9)).toBeGreaterThan(500);
    expect(cleanNeeded(0.5, past, 0.9)).toBeLessThan(550);
  });
});
