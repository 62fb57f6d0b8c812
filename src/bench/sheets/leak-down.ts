import { decimals } from '../calc/figures.ts';
import { leakage, readLeakage } from '../calc/leak-down.ts';
import type { Sheet } from './sheet.ts';

export const leakDown: Sheet = {
  id: 'leak-down',
  title: 'Leak-down',
  asks: 'How much of the air does the cylinder lose, and where does it go?',
  formula: ['lost = (fed − held) / fed'],
  symbols: [
    ['fed', 'pressure ahead of the restrictor, first gauge'],
    ['held', 'pressure in the cylinder, second gauge; piston at top dead centre of compression'],
  ],
  worked: () => [
    {
      caption: 'Fed with 100 psi (690 kPa)',
      head: ['Held', 'Lost', 'Rule of thumb'],
      rows: [98, 95, 92, 88, 82, 75, 60, 40].map((held) => {
        const lost = leakage(100, held)!;
        return [`${held} psi`, `${decimals(100 * lost, 0)} %`, readLeakage(lost)];
      }),
    },
  ],
  limits: [
    'Testers differ in their restrictor, so percentages of two testers do not compare. Two cylinders with one tester do.',
    '10, 20 and 30 percent are rules of thumb. The place of the hiss tells more.',
    'A piston a few degrees off top dead centre has a valve open, and the air can turn the engine: hold the crankshaft, keep hands off the belts.',
  ],
  sources: [
    { reference: 'army-tm-5-4210-230 addendum 2, cylinder leakage test', for: 'how the test is made' },
    { reference: 'common-practice', for: '10, 20 and 30 percent' },
  ],
  checks: ['leak-down-test', 'combustion-gas-in-coolant'],
  families: ['misfire', 'engine-overheats'],
  terms: ['leak-down', 'top-dead-centre', 'blow-by'],
};
