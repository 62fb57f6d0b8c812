import { phraseFinder } from '../cautions.ts';
import type { Rule } from './rule.ts';

/** Words of steps that each name a danger: some caution must answer to every step that has one. */
const hazardWords = [
  'solvent',
  'cleaner',
  'petrol',
  'fuel line',
  'fuel hose',
  'fuel rail',
  'jack',
  'jack stand',
  'jack stands',
  'axle stand',
  'axle stands',
  'battery terminal',
  'battery cable',
  'radiator cap',
  'coolant',
  'refrigerant',
  'airbag',
  'compressed air',
  'flame',
  'propane',
  'drive belt',
  'cooling fan',
  'fan blade',
  'relay',
  'relays',
  'hair dryer',
  'heat gun',
  'block heater',
  'booster',
  'master cylinder',
  'brake pedal',
  'throttle plate',
  'throttle cable',
  'distributor cap',
  'ignition lead',
  'spark tester',
];

/** A step that names a danger brings a caution by its words. */
export const hazardWordsAnswered: Rule = {
  code: 'hazard-word-without-caution',
  severity: 'error',
  sparesNumbers: true,
  wants: ['cautions'],
  check: ({ content }, report) => {
    const phrases = [...content.cautions.values()].flatMap((caution) => caution.appliesTo.words);
    const examine = (kind: 'causes' | 'checks' | 'set-ups', id: string, path: readonly string[], steps: readonly string[]) => {
      steps.forEach((step, index) => {
        const says = phraseFinder([step]);
        const word = hazardWords.find(says);
        if (word && !phrases.some(says))
          report(
            kind,
            id,
            [...path, index],
            `The step says "${word}", and no caution has words that stand in this step.`,
            'Add the words to "appliesTo" of the caution for that danger, or write the caution.',
          );
      });
    };
    for (const [id, cause] of content.causes) examine('causes', id, ['repair', 'steps'], cause.repair.steps);
    for (const [id, check] of content.checks) examine('checks', id, ['steps'], check.steps);
    for (const [id, setUp] of content['set-ups']) examine('set-ups', id, ['steps'], setUp.steps);
  },
};
