import { cautionsFor, type HazardousWork, phraseFinder } from '../cautions.ts';
import type { Rule } from './rule.ts';

/** Words of a step by which the engine turns, whatever the work began with. */
const runningWords = [
  'start the engine',
  'start idle',
  'start cold',
  'start watch',
  'start warm up',
  'start and',
  'start three times',
  'cold start',
  'engine running',
  'engine runs',
  'engine idling',
  'engine at idle',
  'idle a minute',
  'idle five minutes',
  'let it idle',
  'let it run',
  'rev gently',
  'crank again',
  'crank or idle',
  'crank the engine',
  'helper cranks',
  'cranks for',
  'cranking',
];

/** Work that begins with a cold engine and then runs it gets the cautions of a running engine too. */
export const runningEngineAnswered: Rule = {
  code: 'engine-runs-without-caution',
  severity: 'error',
  sparesNumbers: true,
  wants: ['cautions', 'tools', 'set-ups'],
  check: ({ content }, report) => {
    const ofRunning = new Set(
      [...content.cautions].flatMap(([id, { appliesTo }]) => (appliesTo.engineStates.includes('running') ? [id] : [])),
    );
    const examine = (kind: 'causes' | 'checks', id: string, path: readonly string[], work: HazardousWork) => {
      if (work.engineState === 'running') return;
      const says = work.steps.map((step) => runningWords.find(phraseFinder([step])));
      const index = says.findIndex((word) => word !== undefined);
      if (index < 0 || cautionsFor(content, work).some((caution) => ofRunning.has(caution))) return;
      report(
        kind,
        id,
        [...path, index],
        `The step says "${says[index]}", but the engine state is "${work.engineState}" and no caution for a running engine reaches the work.`,
        'Set "engineState: running" if the engine must run from the start; else name the caution in "hazards", or add the words to its "appliesTo".',
      );
    };
    for (const [id, check] of content.checks) examine('checks', id, ['steps'], check);
    for (const [id, { repair }] of content.causes) examine('causes', id, ['repair', 'steps'], repair);
  },
};
