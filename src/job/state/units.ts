/** Readings in the units of the gauge at hand. Factors: NIST SP 811, appendix B.8; inch of mercury conventional, from memory of it. */

export interface UnitChoice {
  readonly unit: string;
  /** In the unit that the content uses = number * factor + offset. */
  readonly factor: number;
  readonly offset: number;
}

const kPa: readonly UnitChoice[] = [
  { unit: 'kPa', factor: 1, offset: 0 },
  { unit: 'inHg', factor: 3.386389, offset: 0 },
  { unit: 'psi', factor: 6.894757, offset: 0 },
  { unit: 'bar', factor: 100, offset: 0 },
];

const choices: Readonly<Record<string, readonly UnitChoice[]>> = {
  kPa,
  inHg: rebased(kPa, 'inHg'),
  psi: rebased(kPa, 'psi'),
  '°C': [
    { unit: '°C', factor: 1, offset: 0 },
    { unit: '°F', factor: 5 / 9, offset: -160 / 9 },
  ],
  'km/h': [
    { unit: 'km/h', factor: 1, offset: 0 },
    { unit: 'mph', factor: 1.609344, offset: 0 },
  ],
  V: [
    { unit: 'V', factor: 1, offset: 0 },
    { unit: 'mV', factor: 0.001, offset: 0 },
  ],
  mV: [
    { unit: 'mV', factor: 1, offset: 0 },
    { unit: 'V', factor: 1000, offset: 0 },
  ],
  Ω: [
    { unit: 'Ω', factor: 1, offset: 0 },
    { unit: 'kΩ', factor: 1000, offset: 0 },
  ],
  kΩ: [
    { unit: 'kΩ', factor: 1, offset: 0 },
    { unit: 'Ω', factor: 0.001, offset: 0 },
  ],
};

function rebased(list: readonly UnitChoice[], base: string): readonly UnitChoice[] {
  const own = list.find(({ unit }) => unit === base)!;
  return [own, ...list.filter((choice) => choice !== own)].map(({ unit, factor }) => ({ unit, factor: factor / own.factor, offset: 0 }));
}

/** Units in which a reading may be typed; the content's own first. */
export const unitChoices = (unit: string): readonly UnitChoice[] => choices[unit] ?? [{ unit, factor: 1, offset: 0 }];

/** The choice named, or the content's own. */
export const unitChoice = (unit: string, chosen: string): UnitChoice =>
  unitChoices(unit).find((choice) => choice.unit === chosen) ?? unitChoices(unit)[0]!;

export const toContentUnit = (value: number, { factor, offset }: UnitChoice): number => value * factor + offset;
export const fromContentUnit = (value: number, { factor, offset }: UnitChoice): number => (value - offset) / factor;

/** A number as people type it: comma or point, a sign of any kind; null when it is none. */
export function typedNumber(text: string): number | null {
  const plain = text.trim().replace(/^[−–]/, '-').replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain)) return null;
  const value = Number(plain);
  return Number.isFinite(value) && Math.abs(value) <= 1e6 ? value : null;
}
