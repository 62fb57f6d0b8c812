/** What any piece of work costs, in the same words for checks, repairs and set-ups. */
import { z } from 'zod';
import { minutes, money, prose, reference, references, step } from './scalars.ts';

export const engineState = z
  .enum(['any', 'cold', 'warm', 'running'])
  .describe('What the engine must be like: cold (stood for hours), warm (just run, now off), running (warm and running), any.');

export const hazards = z
  .array(reference('cautions'))
  .default([])
  .describe('Hazards of this work beyond those that its tools, set-ups, engine state and wording bring by rule. Ids of content/cautions/.');

export const workFields = {
  attendedMinutes: minutes.describe('Hands-on minutes of a handy owner, without set-ups.'),
  waitingMinutes: minutes.default(0).describe('Minutes of waiting (soak, cool-down) in which one may do something else.'),
  tools: references('tools').default([]),
  setUps: references('set-ups').default([]).describe('Shared access work, paid once a job.'),
  engineState: engineState.default('any'),
  hazards,
  harmless: prose
    .optional()
    .describe('Only for work that gets no caution by any rule: why nothing in it can hurt anyone or break anything.'),
};

export const consumablesMoney = money.default(0).describe('Consumables of one performance (not parts, not tools), US dollars.');
export const steps = z.array(step).min(1).max(20).describe('What to do, one action a step, in short sentences.');
