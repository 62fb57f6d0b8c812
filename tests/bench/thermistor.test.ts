import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { celsiusAt, curveThrough, ohmsAt, readError, usualPoints } from '../../src/bench/calc/thermistor.ts';

describe('resistance of a coolant sensor', () => {
  // B(25/85) = ln(R25/R85) / (1/298.15 K - 1/358.15 K): definition of IEC 60539, from memory of it.
  test('a sensor of 10 kilohm with B(25/85) = 3977 K has 1,070 ohm at 85 °C', () => {
    const curve = { betaKelvin: 3977, from: { celsius: 25, ohms: 10_000 } };
    expect(ohmsAt(curve, 85)).toBeCloseTo(1070, -1);
    expect(curveThrough({ celsius: 25, ohms: 10_000 }, { celsius: 85, ohms: ohmsAt(curve, 85) })!.betaKelvin).toBeCloseTo(3977, 8);
  });

  test('the usual points give a B of about 3,660 K, as sensors of that kind have', () => {
    expect(curveThrough(...usualPoints)!.betaKelvin).toBeCloseTo(Math.log(2500 / 300) / (1 / 293.15 - 1 / 353.15), 9);
  });

  const points = fc.record({
    cold: fc.double({ min: -30, max: 30, noNaN: true }),
    hot: fc.double({ min: 60, max: 110, noNaN: true }),
    coldOhms: fc.double({ min: 1500, max: 50_000, noNaN: true }),
    hotOhms: fc.double({ min: 50, max: 1000, noNaN: true }),
  });

  test('the curve goes through both points, falls all the way, and reads back', () => {
    fc.assert(
      fc.property(points, fc.double({ min: -30, max: 120, noNaN: true }), ({ cold, hot, coldOhms, hotOhms }, at) => {
        const curve = curveThrough({ celsius: cold, ohms: coldOhms }, { celsius: hot, ohms: hotOhms })!;
        expect(ohmsAt(curve, cold) / coldOhms).toBeCloseTo(1, 9);
        expect(ohmsAt(curve, hot) / hotOhms).toBeCloseTo(1, 9);
        expect(ohmsAt(curve, at + 1)).toBeLessThan(ohmsAt(curve, at));
        expect(celsiusAt(curve, ohmsAt(curve, at))).toBeCloseTo(at, 6);
      }),
    );
  });

  test('the order of the two points does not matter', () => {
    fc.assert(
      fc.property(points, ({ cold, hot, coldOhms, hotOhms }) => {
        const a = { celsius: cold, ohms: coldOhms };
        const b = { celsius: hot, ohms: hotOhms };
        expect(ohmsAt(curveThrough(a, b)!, 50)).toBeCloseTo(ohmsAt(curveThrough(b, a)!, 50), 6);
      }),
    );
  });

  test('points that make no NTC sensor give no curve', () => {
    expect(curveThrough({ celsius: 20, ohms: 300 }, { celsius: 80, ohms: 2500 })).toBeNull();
    expect(curveThrough({ celsius: 20, ohms: 300 }, { celsius: 20, ohms: 200 })).toBeNull();
    expect(curveThrough({ celsius: 20, ohms: 0 }, { celsius: 80, ohms: 2500 })).toBeNull();
    expect(curveThrough({ celsius: -300, ohms: 2500 }, { celsius: 80, ohms: 300 })).toBeNull();
  });

  test('errors of five kelvin part a good sensor from a false one as the check does', () => {
    expect([-5.1, -5, 0, 4.9, 5].map(readError)).toEqual(['reads-cold', 'fits', 'fits', 'fits', 'reads-hot']);
  });
});
