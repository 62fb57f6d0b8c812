import { decimals, figures } from '../calc/figures.ts';
import { dropOf, usualLimits } from '../calc/voltage-drop.ts';
import type { Sheet } from './sheet.ts';

export const voltageDrop: Sheet = {
  id: 'voltage-drop',
  title: 'Voltage drop',
  asks: 'How much of the battery does this cable, ground or plug eat?',
  formula: ['share lost = drop / supply', 'resistance = drop / current', 'heat = drop × current'],
  symbols: [
    ['drop', 'volts from one end of the part to the other while its current flows'],
    ['supply', 'volts of the battery at the same moment'],
  ],
  worked: () => [
    {
      caption: 'Starter drawing 180 A from a battery at 10.6 V',
      head: ['Drop', 'Share lost', 'Resistance', 'Heat'],
      rows: [0.05, 0.1, 0.2, 0.3, 0.5, 0.8, 1.5].map((volts) => {
        const drop = dropOf(10.6, volts, 180)!;
        return [
          `${volts} V`,
          `${decimals(100 * drop.share, 1)} %`,
          `${figures(1000 * drop.ohms!, 3)} mΩ`,
          `${figures(drop.lostWatts!, 3)} W`,
        ];
      }),
    },
    {
      caption: 'Usual limits',
      head: ['Across', 'Limit'],
      rows: usualLimits.map(({ title, limitVolts }) => [title, `${limitVolts} V`]),
    },
  ],
  limits: [
    'Without current there is no drop: every cable is perfect at rest. An ohmmeter cannot replace the test.',
    'The limits are usual in the trade and have no published source. The service information goes first.',
    'Meter tips on the posts and lugs themselves, not on their clamps.',
  ],
  sources: [
    { text: 'Ohm’s law', known: 'memory', for: 'the formulas' },
    { reference: 'common-practice', for: 'all limits' },
  ],
  checks: ['voltage-drop-ground', 'voltage-drop-charge-cable', 'cranking-voltage', 'measure-pump-voltage', 'measure-coil-supply'],
  families: ['charging-and-voltage', 'fuel-pressure-and-pump'],
  terms: ['voltage-drop', 'ground', 'back-probe'],
};
