import { decimals, figures } from '../calc/figures.ts';
import { curveThrough, ohmsAt, usualPoints } from '../calc/thermistor.ts';
import type { Sheet } from './sheet.ts';

const usual = curveThrough(...usualPoints)!;
const tenKilohm = curveThrough({ celsius: 25, ohms: 10_000 }, { celsius: 85, ohms: 1070 })!;

export const coolantSensor: Sheet = {
  id: 'coolant-sensor',
  title: 'Coolant-sensor resistance',
  asks: 'What temperature does this resistance stand for, and does the sensor fit its curve?',
  formula: ['B = ln(R₁ / R₂) / (1/T₁ − 1/T₂)', 'R = R₁ × exp(B × (1/T − 1/T₁))', '1/T = 1/T₁ + ln(R / R₁) / B'],
  symbols: [
    ['R', 'resistance'],
    ['T', 'temperature in kelvin: °C + 273.15'],
    ['B', 'constant of the sensor between the two points, kelvin'],
  ],
  worked: () => [
    {
      caption:
        'Two curves. Left: common practice, 2,500 Ω at 20 °C and 300 Ω at 80 °C. Right: a sensor of 10 kΩ at 25 °C with 1,070 Ω at 85 °C',
      head: ['Temperature', '2.5 kΩ at 20 °C', '10 kΩ at 25 °C'],
      rows: [-20, 0, 20, 40, 60, 80, 100, 110].map((celsius) => [
        `${decimals(celsius, 0)} °C (${decimals(celsius * 1.8 + 32, 0)} °F)`,
        `${figures(ohmsAt(usual, celsius), 3)} Ω`,
        `${figures(ohmsAt(tenKilohm, celsius), 3)} Ω`,
      ]),
    },
  ],
  limits: [
    'Makers use different sensors. Take the two points from the service information; the ones here are only usual.',
    'Good to a kelvin or two between the points, worse beyond them: a true curve bends a little.',
    'Unplug the sensor before you measure; never put an ohmmeter on a live wire.',
    'A thermometer on plastic or in air reads low. Press it on metal and cover it.',
  ],
  sources: [
    { text: 'IEC 60539, thermistors: definition of B', known: 'memory', for: 'the formula' },
    { reference: 'common-practice', for: 'the usual points, and 5 K as the error that counts' },
  ],
  checks: [
    'measure-coolant-sensor-resistance',
    'compare-coolant-to-ambient-cold',
    'compare-coolant-scan-to-thermometer-warm',
    'measure-temperature-sensor-wires',
  ],
  families: ['coolant-and-air-temperature', 'warm-up-and-thermostat'],
  terms: ['thermistor', 'reference-voltage', 'bias'],
};
