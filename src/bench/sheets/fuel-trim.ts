import { decimals, percent, signed } from '../calc/figures.ts';
import { signatureFits } from '../calc/fuel-trim.ts';
import type { Sheet } from './sheet.ts';

const examples = [
  [20, 4],
  [14, 13],
  [6, 17],
  [-19, -10],
  [3, 2],
] as const;

export const fuelTrim: Sheet = {
  id: 'fuel-trim',
  title: 'Fuel trim at two speeds',
  asks: 'Is it air that nobody counted, fuel that does not arrive, or a sensor that is wrong?',
  formula: [
    'total = short term + long term',
    'change = total at 2,500 rpm − total at idle',
    'fit of a pattern = N(total at idle) × N(change), normal densities',
  ],
  symbols: [
    ['total', 'trim of one bank at one moment, percent; plus adds fuel (the module saw lean)'],
    [
      'N',
      'normal density round the pattern’s mean, its spread widened by 2 % for a live reading; 3 % of the weight is left flat, so that one mistyped figure settles nothing',
    ],
  ],
  worked: (knowledge) => {
    const signatures = Object.values(knowledge.trimSignatures);
    return [
      {
        caption: 'Totals of one bank, and the pattern that fits best',
        head: ['Idle', '2,500 rpm', 'Change', 'Best fit', 'Share'],
        rows: examples.map(([idle, raised]) => {
          const best = signatureFits(1, { idleBank1Percent: idle, at2500Bank1Percent: raised }, signatures)[0]!;
          return [`${signed(idle)} %`, `${signed(raised)} %`, `${signed(raised - idle)} %`, best.signature.title, percent(best.share)];
        }),
      },
      {
        caption: 'The patterns: mean and spread (one standard deviation)',
        head: ['Pattern', 'Total at idle', 'Change to 2,500 rpm'],
        rows: signatures.map(({ title, atIdle, change }) => [
          title,
          `${signed(atIdle.meanPercent)} ± ${decimals(atIdle.sdPercent)} %`,
          `${signed(change.meanPercent)} ± ${decimals(change.sdPercent)} %`,
        ]),
      },
    ];
  },
  limits: [
    'Warm engine, closed loop, loads off. Trims of an engine in open loop mean nothing.',
    'Clearing the codes wipes the long-term trim; drive a quarter of an hour before you read it.',
    'An engine without an air meter hides part of a vacuum leak: it idles high instead of trimming.',
    'The shares weigh the patterns alone. A job weighs symptoms, codes and work done besides.',
  ],
  sources: [
    { reference: 'sae-j1979 services 01 and 02', for: 'what the two trims are' },
    { reference: 'writers-judgement', for: 'mean and spread of the patterns' },
    { reference: 'common-practice', for: 'adding the two trims; 5 % as a change that counts, 10 % as a bank that is off' },
  ],
  checks: ['read-trims-two-speeds', 'compare-trims-of-banks'],
  families: ['lean', 'rich'],
  terms: ['fuel-trim', 'short-term-trim', 'long-term-trim', 'closed-loop', 'unmetered-air'],
};
