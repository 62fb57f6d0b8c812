import { leastShare, readSpread, spreadOf } from '../calc/compression.ts';
import { decimals } from '../calc/figures.ts';
import type { Sheet } from './sheet.ts';

const words = { even: 'even', 'one-low': 'one low', 'neighbours-low': 'neighbours low', uneven: 'uneven' };

export const compression: Sheet = {
  id: 'compression',
  title: 'Compression spread and oil test',
  asks: 'Do all cylinders hold alike, and if one does not, is it the rings?',
  formula: ['spread = lowest / highest; even when ≥ 75 %', 'rise with oil = (with oil − dry) / dry; clear when ≥ 20 %'],
  symbols: [
    ['dry', 'end reading of the gauge: warm engine, all plugs out, throttle wide open, five strokes or more, as many for each cylinder'],
    ['with oil', 'the same with about a tablespoon (15 mL) of engine oil in the cylinder'],
  ],
  worked: () => [
    {
      caption: 'Readings of an engine in line, psi',
      head: ['1', '2', '3', '4', 'Lowest of highest', 'Reads as'],
      rows: [
        [165, 160, 158, 162],
        [165, 160, 110, 158],
        [170, 95, 90, 168],
        [170, 120, 165, 118],
        [160, 120, 155, 158],
      ].map((row) => {
        const spread = spreadOf(row)!;
        return [...row.map(String), `${decimals(100 * spread.share, 1)} %`, words[readSpread(spread, [[1, 2, 3, 4]])]];
      }),
    },
    {
      caption: 'The limit, by the highest reading',
      head: ['Highest', 'Lowest that still counts as even'],
      rows: [120, 140, 160, 180, 200, 220].map((highest) => [`${highest} psi`, `${decimals(leastShare * highest, 0)} psi`]),
    },
  ],
  limits: [
    'Handbooks disagree: one allows three quarters of the highest, another wants all within 10 psi. The figure for the engine goes first.',
    'A spread cannot show that all are low alike; only the pressure in the service information can.',
    'A slow starter or a shut throttle lowers all readings. A flat cam lobe hardly lowers its own.',
    'On a flat engine the oil seals the lower half of the ring only.',
  ],
  sources: [
    { reference: 'army-tm-5-4210-230 addendum 2, compression test', for: '75 percent, the oil test and what it means' },
    { reference: 'army-tm-10-3930-618 2-12', for: 'within 10 psi' },
    { reference: 'common-practice', for: 'a fifth as a clear rise' },
  ],
  checks: ['compression-test', 'wet-compression-test', 'relative-compression', 'cranking-rhythm-listen'],
  families: ['misfire'],
  terms: ['compression', 'compression-spread', 'blow-by'],
};
