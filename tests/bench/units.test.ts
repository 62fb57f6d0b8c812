import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromBase, type Scale, toBase } from '../../src/bench/calc/scale.ts';
import { quantities } from '../../src/bench/quantities.ts';

const scaleOf = (quantity: keyof typeof quantities, unit: string): Scale =>
  quantities[quantity].scales.find((scale) => scale.unit === unit)!;
const convert = (quantity: keyof typeof quantities, value: number, from: string, to: string) =>
  fromBase(toBase(value, scaleOf(quantity, from)), scaleOf(quantity, to));

describe('units of the workshop', () => {
  // NIST SP 811 (2008), appendix B.8. Torque and psi also from the definitions of foot, pound and standard gravity.
  test.each([
    ['torque', 'lbf·ft', 'N·m', 1.3558179483314],
    ['torque', 'lbf·in', 'N·m', 0.1129848290276167],
    ['torque', 'kgf·m', 'N·m', 9.80665],
    ['pressure', 'psi', 'kPa', 6.894757293168],
    ['pressure', 'inHg', 'kPa', 3.386389],
    ['pressure', 'bar', 'kPa', 100],
    ['pressure', 'kgf/cm²', 'kPa', 98.0665],
    ['volume', 'US gallon', 'L', 3.785411784],
    ['volume', 'US quart', 'L', 0.946352946],
    ['volume', 'US fluid ounce', 'mL', 29.5735295625],
    ['volume', 'cubic inch', 'mL', 16.387064],
    ['length', 'in', 'mm', 25.4],
    ['length', 'mile', 'km', 1.609344],
  ] as const)('%s: 1 %s in %s agrees with NIST SP 811 to nine figures', (quantity, from, to, factor) => {
    expect(convert(quantity, 1, from, to) / factor).toBeCloseTo(1, 9);
  });

  test('the foot-pound is the product of the definitions of foot, pound and standard gravity', () => {
    expect(scaleOf('torque', 'lbf·ft').factor).toBeCloseTo(0.3048 * 0.45359237 * 9.80665, 14);
  });

  test('the psi is the pound-force on a square inch', () => {
    expect(scaleOf('pressure', 'psi').factor).toBeCloseTo((0.45359237 * 9.80665) / 0.0254 ** 2 / 1000, 8);
  });

  // The warm-up cycle's two temperatures as they are usually printed: 160 °F = 71.1 °C.
  test.each([
    [32, 0],
    [212, 100],
    [-40, -40],
    [160, 71.1111111],
    [195, 90.5555556],
  ])('%d °F is %d °C', (fahrenheit, celsius) => {
    expect(convert('temperature', fahrenheit, '°F', '°C')).toBeCloseTo(celsius, 6);
  });

  test('absolute zero is -273.15 °C', () => {
    expect(convert('temperature', 0, 'K', '°C')).toBe(-273.15);
  });

  test('any value comes back from any unit of its quantity', () => {
    for (const { scales } of Object.values(quantities))
      fc.assert(
        fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.constantFrom(...scales), (value, scale) => {
          expect(fromBase(toBase(value, scale), scale)).toBeCloseTo(value, 5);
        }),
      );
  });
});
