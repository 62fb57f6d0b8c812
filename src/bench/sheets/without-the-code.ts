import { decimals, percent } from '../calc/figures.ts';
import { silenceOf } from '../calc/without-the-code.ts';
import type { Sheet } from './sheet.ts';

const far = (value: number) => (Number.isFinite(value) ? `${decimals(Math.ceil(value), 0)} km` : 'never');

export const withoutTheCode: Sheet = {
  id: 'without-the-code',
  title: 'How long without the code',
  asks: 'How far must I drive without it before I may believe in the repair?',
  formula: [
    'P(silent for n | still there) = (t / (t + n))^(k + ½)',
    'P(fixed | silent for n) = q / (q + (1 − q) × P(silent for n | still there))',
    'rule of three: none in n, so at 95 % less often than 3 in n',
  ],
  symbols: [
    ['k', 'times that it came back before the repair, the first time not counted'],
    ['t', 'over how many km, miles, hours or starts'],
    ['n', 'as many without it since the repair'],
    ['q', 'belief that the repair was right, before any driving'],
  ],
  worked: () => [
    {
      caption: 'It came back k times in 600 km; the repair is believed right by 80 %',
      head: ['k', 'For 90 %', 'For 95 %', 'For 99 %', 'After 250 km'],
      rows: [1, 2, 3, 5, 10].map((returns) => {
        const found = silenceOf(returns, 600, 0.8, 250)!;
        return [String(returns), ...found.needed.map(({ clean }) => far(clean)), percent(found.fixed)];
      }),
    },
    {
      caption: 'It came back 3 times in 600 km; by belief in the repair',
      head: ['Belief', 'For 90 %', 'For 95 %', 'For 99 %'],
      rows: [0.3, 0.5, 0.8, 0.95].map((right) => [percent(right), ...silenceOf(3, 600, right, 0)!.needed.map(({ clean }) => far(clean))]),
    },
  ],
  limits: [
    'Returns are taken as random at a steady rate. A fault that shows only in the cold or the wet needs cold or wet to count.',
    'Some monitors run seldom. Without a completed monitor, silence says nothing: read the readiness first.',
    'If it came back just once, the rate is hardly known and the figure is long. That is honest, not a fault.',
  ],
  sources: [
    {
      text: 'Gelman and others, Bayesian Data Analysis, 3rd edition, section 2.6: Poisson rate with a gamma prior',
      known: 'memory',
      for: 'the first formula, with Jeffreys’ prior',
    },
    {
      text: 'Hanley and Lippman-Hand 1983, Journal of the American Medical Association 249, pages 1743-1745',
      known: 'memory',
      for: 'the rule of three',
    },
  ],
  checks: ['clear-and-see-whether-it-returns-at-once'],
  families: [],
  terms: ['clear', 'drive-cycle', 'readiness-monitor', 'intermittent', 'similar-conditions'],
};
