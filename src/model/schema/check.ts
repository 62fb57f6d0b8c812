import { z } from 'zod';
import { formerly, id, line, needs, probability, prose, reference, references, sourceReference, synonyms } from './scalars.ts';
import { consumablesMoney, steps, workFields } from './work.ts';

export const units = [
  'kPa',
  'inHg',
  'psi',
  'Pa',
  'V',
  'mV',
  'A',
  'ohm',
  'kohm',
  'degC',
  'percent',
  'rpm',
  'g/s',
  'mm',
  'N.m',
  's',
  'ms',
  'Hz',
  'kHz',
  'L/h',
  'mL/min',
  'km/h',
  'ratio',
  'count',
  'K',
  'degrees',
] as const;

const limits = z
  .strictObject({
    above: z.number().optional().describe('Holds for this reading and those above it.'),
    below: z.number().optional().describe('Holds for readings below this one.'),
  })
  .refine((range) => range.above === undefined || range.below === undefined || range.above < range.below, {
    message: '"above" is not below "below"',
    path: ['above'],
  })
  .describe('This outcome holds for a reading r with above <= r < below, in the unit of the reading.');

export const reading = z
  .strictObject({
    what: line.describe('Quantity: "Manifold vacuum".'),
    unit: z.enum(units).describe('Unit of the reading and of the limits of the outcomes.'),
    at: line.describe('Conditions of the reading: "warm engine, idle, all loads off".'),
    maker: line.optional().describe('What only the service information of the vehicle can say about the limit.'),
    source: sourceReference,
  })
  .describe('The number to read, when there is one. Outcomes carry its limits.');

const outcome = z.strictObject({
  id,
  title: line.describe('What one sees: "Needle steady, 17 to 21 inHg".'),
  means: prose.describe('What it means and why, in physical terms.'),
  when: limits.optional(),
});

const row = z.record(id, probability).describe('Chance of each outcome; outcomes left out share the rest as in `otherwise`.');

export const check = z
  .strictObject({
    title: line.describe('The check as an instruction: "Read manifold vacuum at idle".'),
    also: synonyms,
    formerly,
    asks: line.describe('The question that it answers.'),
    why: prose.describe('The physical reason why it can tell.'),
    ...workFields,
    money: consumablesMoney,
    skill: z
      .enum(['anyone', 'handy', 'experienced'])
      .describe('anyone: eyes and ears; handy: has changed plugs; experienced: knows gauges and meters.'),
    after: references('checks').default([]).describe('Checks that must have been done before.'),
    sameAs: z
      .array(z.enum(['trims', 'freeze-frame']))
      .default([])
      .describe('Evidence that a job may already hold and that this check would only read again; then it is left out.'),
    needs,
    steps,
    reading: reading.optional(),
    trap: prose.describe('What makes it lie, and how to notice.'),
    outcomes: z.array(outcome).min(2).max(4).describe('Two to four; the first is the good one.'),
    likelihood: z
      .record(reference('causes'), row)
      .describe('For each cause that it can tell: chance of each outcome when that is the cause. Keys are ids of content/causes/.'),
    otherwise: row.describe(
      'Chance of each outcome when the cause is none of those named: the false alarms. All outcomes but one, or all.',
    ),
    repeats: z.boolean().default(false).describe('true only if doing it again gives an independent result.'),
    provokes: z.boolean().default(false).describe('true if it makes an intermittent fault appear (wiggle, heat, mist, load).'),
    likelihoodReason: prose.describe('Why these chances: what misses, what alarms falsely.'),
    source: sourceReference.describe('Source of the numbers of this file that name none of their own.'),
  })
  .describe('One check: what it costs, how it is done, what each outcome means.');
export type CheckFile = z.infer<typeof check>;
