import { figures } from '../calc/figures.ts';
import { fromBase, toBase } from '../calc/scale.ts';
import { quantities } from '../quantities.ts';
import type { Sheet } from './sheet.ts';

const typical = {
  torque: [10, 18, 25, 90],
  pressure: [100, 300, 700, 1100],
  temperature: [-20, 0, 20, 71, 90, 105],
  volume: [0.015, 0.5, 1, 4.5],
  length: [0.8, 1.1, 25.4, 1000],
} as const;

export const units: Sheet = {
  id: 'units',
  title: 'Units of the workshop',
  asks: 'What is that torque, pressure, temperature, volume or length in the unit of my tool?',
  formula: [
    '1 lbf·ft = 0.3048 m × 0.45359237 kg × 9.80665 m/s² = 1.3558179 N·m',
    '1 psi = 6.894757 kPa',
    '1 inHg = 3.386389 kPa',
    '°C = (°F − 32) × 5/9',
    '1 US gallon = 231 cubic inches = 3.785411784 L',
    '1 in = 25.4 mm',
  ],
  symbols: [],
  worked: () =>
    Object.values(quantities).map(({ id, title, scales }) => ({
      caption: title,
      head: scales.map(({ unit }) => unit),
      rows: typical[id as keyof typeof typical].map((value) =>
        scales.map((scale) => figures(fromBase(toBase(value, scales[0]!), scale), 4)),
      ),
    })),
  limits: [
    'A torque in the service information holds for the thread as it says: dry, oiled or with locking compound. Converting does not change that.',
    'Gauge pressure and absolute pressure differ by the barometer. Vacuum is counted down from it.',
    'US quarts and gallons; the imperial ones are a fifth larger.',
  ],
  sources: [
    { reference: 'nist-sp-811 appendix B.8', for: 'factors' },
    {
      text: 'Definitions of foot, pound, standard gravity and US gallon',
      known: 'memory',
      for: 'torque, psi and gallon, computed from them',
    },
  ],
  checks: [],
  families: [],
  terms: ['vacuum', 'service-information', 'strength-class'],
};
