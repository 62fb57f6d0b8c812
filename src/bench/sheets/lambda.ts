import { decimals } from '../calc/figures.ts';
import { fuels, lambdaOfExhaust, lambdaOfOxygen, ratioOfLambda } from '../calc/lambda.ts';
import type { Sheet } from './sheet.ts';

export const lambda: Sheet = {
  id: 'lambda',
  title: 'Exhaust oxygen and lambda',
  asks: 'Rich or lean, by the exhaust itself or by the air-fuel ratio?',
  formula: [
    'λ = air-fuel ratio / ratio that burns without rest',
    'λ = (CO₂ + CO/2 + O₂ + (H/4 × 3.5 / (3.5 + CO/CO₂) − O/2) × (CO₂ + CO)) / ((1 + H/4 − O/2) × (CO₂ + CO + 6 HC))',
    'from oxygen alone: λ = (a + s (1 − a)) / (a (1 − 4.773 s)), a = 1 + H/4 − O/2',
  ],
  symbols: [
    ['CO₂, CO, O₂', 'volume percent of the dry exhaust'],
    ['HC', 'hydrocarbons counted as hexane, volume percent (1 % = 10,000 ppm)'],
    ['H, O', 'hydrogen and oxygen atoms for each carbon atom of the fuel: 1.7261 and 0.0176 for petrol'],
    ['s', 'oxygen as a share of the dry exhaust'],
  ],
  worked: () => [
    {
      caption: 'From all gases (Brettschneider, simplified: nitric oxide left out)',
      head: ['O₂', 'CO₂', 'CO', 'HC', 'λ'],
      rows: [
        [0.3, 15.2, 0.2, 30],
        [1.4, 14.2, 0.3, 120],
        [0.2, 12.5, 4, 250],
        [3.5, 13, 0.1, 60],
        [4, 12.4, 0.4, 1500],
      ].map(([o2, co2, co, hc]) => [
        `${o2} %`,
        `${co2} %`,
        `${co} %`,
        `${hc} ppm`,
        decimals(lambdaOfExhaust({ oxygenPercent: o2!, carbonDioxidePercent: co2!, carbonMonoxidePercent: co!, hydrocarbonsPpm: hc! })!, 3),
      ]),
    },
    {
      caption: 'From oxygen alone, all fuel burnt',
      head: ['O₂', 'λ'],
      rows: [0, 1, 2, 3, 4, 6, 8].map((percent) => [`${percent} %`, decimals(lambdaOfOxygen(percent)!, 3)]),
    },
    {
      caption: 'Air-fuel ratio by fuel',
      head: ['λ', ...fuels.map(({ title }) => title)],
      rows: [0.85, 0.9, 0.95, 1, 1.05, 1.1, 1.15].map((value) => [
        decimals(value, 2),
        ...fuels.map((fuel) => decimals(ratioOfLambda(value, fuel), 2)),
      ]),
    },
  ],
  limits: [
    'An exhaust leak, or secondary air, lets in oxygen: lambda then reads lean when the engine is not.',
    'Ahead of a working catalyst the gases are still those of the engine. Behind it CO and HC are burnt; lambda from all gases stays nearly the same.',
    'A display in air-fuel ratio has a fuel built in. Lambda has none: prefer it.',
    'Infrared analysers miss part of the hydrocarbons, so a misfiring engine reads leaner than it is.',
  ],
  sources: [
    {
      text: 'J. Brettschneider 1979, Bosch Technische Berichte 6 (4), pages 177-186',
      known: 'second-hand',
      for: 'the form of the equation; its constants for petrol are from memory',
    },
    { text: 'Balance of carbon, hydrogen and oxygen; dry air with 20.95 % oxygen', known: 'memory', for: 'lambda from oxygen alone' },
    { text: '14.7 : 1 for petrol without ethanol', known: 'second-hand', for: 'E0' },
    { reference: 'from-memory', for: '14.1 : 1 for E10, 9.8 : 1 for E85' },
    { reference: 'common-practice', for: 'within 3 % as near 1' },
  ],
  checks: [
    'read-lambda-on-overrun',
    'rich-lean-response',
    'watch-oxygen-sensor-switching',
    'road-test-mixture-under-load',
    'ethanol-shake-test',
  ],
  families: ['lean', 'rich', 'oxygen-sensor', 'catalyst-efficiency'],
  terms: ['lambda', 'lean', 'rich', 'catalyst', 'secondary-air'],
};
