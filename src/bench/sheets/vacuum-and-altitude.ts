import { decimals } from '../calc/figures.ts';
import { barometerKpa, expectedByAtmosphereKpa, expectedByRuleKpa, kPaPerInHg } from '../calc/vacuum.ts';
import type { Sheet } from './sheet.ts';

const inHg = (kPa: number | null) => (kPa === null ? '–' : decimals(kPa / kPaPerInHg, 1));

export const vacuumAndAltitude: Sheet = {
  id: 'vacuum-and-altitude',
  title: 'Vacuum against altitude',
  asks: 'How much vacuum may be asked of an engine this high above the sea?',
  formula: [
    'by the rule: v(h) = v(0) − 1 inHg × h / 1,000 ft',
    'by the atmosphere: v(h) = v(0) − (p(0) − p(h))',
    'p(h) = 101.325 kPa × (1 − 0.0065 K/m × h / 288.15 K)^5.2559',
    'absolute pressure in the manifold = p(h) − v',
  ],
  symbols: [
    ['v', 'vacuum at warm idle'],
    ['h', 'height above sea level'],
    ['p', 'barometer of the standard atmosphere'],
  ],
  worked: () => [
    {
      caption: 'For an engine that pulls 20 inHg at sea level',
      head: ['Height', 'Barometer', 'Vacuum by the rule', 'Vacuum by the atmosphere'],
      rows: [0, 1000, 2000, 3000, 4000, 5000, 6000, 8000, 10_000].map((feet) => {
        const metres = feet * 0.3048;
        const seaLevel = 20 * kPaPerInHg;
        return [
          `${feet.toLocaleString('en')} ft (${decimals(metres, 0)} m)`,
          `${inHg(barometerKpa(metres))} inHg (${decimals(barometerKpa(metres)!, 1)} kPa)`,
          `${inHg(expectedByRuleKpa(seaLevel, metres))} inHg`,
          `${inHg(expectedByAtmosphereKpa(seaLevel, metres))} inHg`,
        ];
      }),
    },
  ],
  limits: [
    'The rule is a straight line; the air thins a little less with each step up. At 10,000 ft it asks for about 0.7 inHg less vacuum than the formula.',
    'Weather moves the barometer by up to about 1 inHg on its own.',
    'The formula takes it that the engine idles with the same absolute pressure in its manifold at every height.',
    'Engines with long valve overlap, or with the throttle held open by design, read lower. The figure for the engine goes first.',
  ],
  sources: [
    { reference: 'army-od1001 lesson 3, vacuum readings', for: 'about 20 inHg at sea level, 1 inHg less for each 1,000 ft' },
    { text: 'US Standard Atmosphere 1976, first layer (the same as ISO 2533)', known: 'second-hand', for: 'the formula and its constants' },
    { reference: 'nist-sp-811 appendix B.8', for: 'inch of mercury, conventional' },
    { reference: 'common-practice', for: '17 inHg as the least that most engines reach at sea level' },
  ],
  checks: ['read-manifold-vacuum', 'snap-throttle-vacuum', 'compare-map-with-gauge', 'read-map-key-on-engine-off'],
  families: ['lean', 'idle-speed', 'air-flow-and-manifold-pressure'],
  terms: ['vacuum', 'manifold-absolute-pressure', 'barometric-pressure'],
};
