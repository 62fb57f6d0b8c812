import { cautionsFor, type HazardousWork } from '../cautions.ts';
import type { Rule } from './rule.ts';

/** Somebody has thought about each piece of work: it gets a caution, or says why it needs none, and not both. */
export const harmDecided: Rule = {
  code: 'harm-undecided',
  severity: 'error',
  sparesNumbers: true,
  wants: ['cautions', 'tools', 'set-ups'],
  check: ({ content }, report) => {
    const examine = (
      kind: 'causes' | 'checks',
      id: string,
      above: readonly string[],
      work: HazardousWork & { readonly harmless?: string | undefined },
    ) => {
      const cautions = cautionsFor(content, work);
      if (cautions.length === 0 && work.hazards.length === 0 && !work.harmless)
        report(
          kind,
          id,
          [...above, 'steps'],
          'No caution reaches this work: not by its hazards, engine state, tools, set-ups, parts or words.',
          'Name what can hurt or break in "hazards", or say in "harmless" why nothing can.',
          { atKey: true },
        );
      if (cautions.length > 0 && work.harmless)
        report(
          kind,
          id,
          [...above, 'harmless'],
          `It is called harmless, yet gets ${cautions.join(', ')}.`,
          'Delete "harmless", or mend the step, tool or state that brings the caution.',
          { atKey: true },
        );
    };
    for (const [id, check] of content.checks) examine('checks', id, [], check);
    for (const [id, { repair }] of content.causes) examine('causes', id, ['repair'], repair);
  },
};
