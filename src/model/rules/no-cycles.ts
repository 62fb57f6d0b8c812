import { cycleThrough } from '../cycle.ts';
import type { Rule } from './rule.ts';

/** "Must come before" has no circle. */
export const noCycles: Rule = {
  code: 'must-come-before-cycle',
  severity: 'error',
  check: ({ content }, report) => {
    const after = (id: string) => content.checks.get(id)?.after ?? [];
    for (const id of content.checks.keys()) {
      const chain = cycleThrough(id, after);
      // Reported once, at the member whose id comes first.
      if (chain && id === [...chain].sort()[0])
        report(
          'checks',
          id,
          ['after'],
          `The checks wait for each other: ${[...chain, id].join(' > ')}.`,
          'Take one of them out of "after".',
          { atKey: true },
        );
    }
  },
};

/** Set-ups do not stand on themselves. */
export const noSetUpCycles: Rule = {
  code: 'set-up-cycle',
  severity: 'error',
  check: ({ content }, report) => {
    const under = (id: string) => content['set-ups'].get(id)?.setUps ?? [];
    for (const id of content['set-ups'].keys()) {
      const chain = cycleThrough(id, under);
      if (chain && id === [...chain].sort()[0])
        report(
          'set-ups',
          id,
          ['setUps'],
          `The set-ups stand on each other: ${[...chain, id].join(' > ')}.`,
          'Take one of them out of "setUps".',
          { atKey: true },
        );
    }
  },
};
