import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outcomeOfReading } from '../../src/job/state/reading.ts';
import { fromContentUnit, toContentUnit, typedNumber, unitChoice, unitChoices } from '../../src/job/state/units.ts';

describe('units of readings', () => {
  // NIST SP 811 appendix B.8: 1 psi = 6.894 757 kPa; conventional inch of mercury 3.386 389 kPa; 1 mile = 1.609 344 km exactly.
  test.each([
    [20, 'inHg', 'kPa', 67.72778],
    [36, 'psi', 'kPa', 248.2113],
    [160, '°F', '°C', 71.1111],
    [195, '°F', '°C', 90.5556],
    [60, 'mph', 'km/h', 96.56064],
    [450, 'mV', 'V', 0.45],
  ])('%d %s is %s %d', (value, typed, unit, expected) => {
    expect(toContentUnit(value, unitChoice(unit, typed))).toBeCloseTo(expected, 3);
  });

  test('there and back is the same number, in every unit', () => {
    const units = ['kPa', 'inHg', 'psi', '°C', 'km/h', 'V', 'mV', 'Ω', 'kΩ', 'rpm'];
    fc.assert(
      fc.property(fc.constantFrom(...units), fc.double({ min: -1000, max: 1000, noNaN: true }), (unit, value) => {
        for (const choice of unitChoices(unit)) expect(fromContentUnit(toContentUnit(value, choice), choice)).toBeCloseTo(value, 6);
        expect(toContentUnit(value, unitChoices(unit)[0]!), 'the first is the unit of the content').toBeCloseTo(value, 12);
      }),
    );
  });

  test('numbers are read as people type them', () => {
    expect(['4,5', '4.5', ' 12 ', '-3', '−3', '+2', '.5'].map(typedNumber)).toEqual([4.5, 4.5, 12, -3, -3, 2, 0.5]);
    expect(['', 'x', '1.2.3', '1e9', '12 V', '--3', 'Infinity'].map(typedNumber)).toEqual([null, null, null, null, null, null, null]);
  });
});

describe('a typed reading', () => {
  const outcomes = [
    { id: 'good', when: { above: 57, below: 71 } },
    { id: 'low', when: { above: null, below: 57 } },
    { id: 'high', when: { above: 71, below: null } },
    { id: 'swings', when: null },
  ];

  test('the lower limit belongs to the outcome, the upper does not', () => {
    expect([56.9, 57, 70.9, 71].map((value) => outcomeOfReading(value, outcomes)?.id)).toEqual(['low', 'good', 'good', 'high']);
  });

  test('an outcome seen by eye never follows from a number', () => {
    expect(
      outcomeOfReading(60, [
        { id: 'swings', when: null },
        { id: 'open', when: { above: null, below: null } },
      ]),
    ).toBeNull();
  });
});
