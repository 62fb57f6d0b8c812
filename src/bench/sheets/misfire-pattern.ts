import { companionPairs, usualFiringOrders } from '../../engine/belief/cylinders.ts';
import { firingIntervalDegrees } from '../calc/misfire.ts';
import type { Sheet } from './sheet.ts';

const layouts = { inline: 'in line', v: 'V', flat: 'flat' };

export const misfirePattern: Sheet = {
  id: 'misfire-pattern',
  title: 'Misfire pattern by firing order',
  asks: 'What do the misfiring cylinders share: a coil, a place in the block, a bank, or nothing?',
  formula: [
    'companion of the k-th in the firing order = the (k + n/2)-th',
    'crank degrees between power strokes = 720° / n',
    'P(reach | cylinders) ∝ Σ P(cylinders | pattern) × P(pattern | reach)',
  ],
  symbols: [
    ['n', 'number of cylinders; companions exist only when it is even'],
    [
      'companions',
      'reach top dead centre together, 360 crank degrees apart: write the firing order, put its second half under its first, read the columns',
    ],
    ['neighbours', 'side by side in one bank'],
    ['reach', 'what one fault takes out: one cylinder, a coil pair, neighbours, a bank, several, the whole engine'],
  ],
  worked: () => [
    {
      caption: 'Usual firing orders and their companions',
      head: ['Engine', 'Firing order', 'Companions', 'Degrees'],
      rows: usualFiringOrders.map(({ order, layout }) => [
        `${order.length} ${layouts[layout]}`,
        order.join('-'),
        companionPairs(order)
          .map(([a, b]) => `${a} and ${b}`)
          .join(', ') || 'none',
        `${firingIntervalDegrees(order.length)}°`,
      ]),
    },
  ],
  limits: [
    'Firing orders and the numbering of banks differ by maker. The label on the vehicle or its service information decides.',
    'A shared coil matters only where two plugs share one. With a coil on each plug, companions share nothing.',
    'The module may count a misfire on the cylinder after the true one. A swap of parts settles it, a pattern does not.',
  ],
  sources: [
    { reference: 'waste-spark-textbook', for: 'finding companions by the firing order' },
    { reference: 'from-memory', for: 'the usual firing orders' },
    { reference: 'writers-judgement', for: 'which patterns each reach leaves' },
    { reference: 'sae-j2012', for: 'P0300 to P0312' },
  ],
  checks: ['read-misfire-counters', 'swap-coil', 'swap-spark-plug', 'swap-injector', 'compression-test', 'trace-plug-leads'],
  families: ['misfire', 'ignition-coil-circuit', 'injector-circuit'],
  terms: ['firing-order', 'companion-cylinders', 'waste-spark', 'bank', 'coil-on-plug'],
};
