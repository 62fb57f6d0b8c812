/** Scalars that every kind of file uses. Descriptions are the documentation: editors show them on hover. */
import { z } from 'zod';

export const idPattern = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;
export const codePattern = /^[PCBU][0-3][0-9A-F]{3}$/;

export const id = z
  .string()
  .regex(idPattern, 'an id is lower-case words joined by hyphens, such as worn-spark-plugs')
  .max(60)
  .describe('An id: lower-case words joined by hyphens.');

/** A list of ids of files of `kind`. */
export const references = (kind: string) => z.array(reference(kind)).describe(`Ids of files in content/${kind}/.`);

/** An id that must be the name of a file of `kind`; checked by the rule `unknown-id`. */
export const reference = (kind: string) => id.describe(`Id of a file in content/${kind}/.`).meta({ reference: kind });

export const line = z.string().trim().min(1).max(160).describe('One line of text, 160 characters at most.');
export const prose = z.string().trim().min(1).max(2000).describe('Plain sentences, 2,000 characters at most.');
export const step = z.string().trim().min(1).max(600).describe('One action, in short sentences.');
export const synonyms = z.array(line).max(30).default([]).describe('Other names that people search for.');

/** Renooij & Witteman 1999, Int. J. Approximate Reasoning 22:169-194: a verbal scale tested on people. */
export const verbalScale = {
  certain: 1,
  probable: 0.85,
  expected: 0.75,
  'fifty-fifty': 0.5,
  uncertain: 0.25,
  improbable: 0.15,
  impossible: 0,
} as const;
export type VerbalProbability = keyof typeof verbalScale;

export const probability = z
  .union([z.number().min(0).max(1), z.enum(Object.keys(verbalScale) as [VerbalProbability, ...VerbalProbability[]])])
  .describe(
    'A probability: a number from 0 to 1, or a word of the verbal scale (certain 1, probable .85, expected .75, fifty-fifty .5, uncertain .25, improbable .15, impossible 0). Used for an update it is clamped to 0.005..0.995.',
  );
export type ProbabilityInput = z.infer<typeof probability>;

export const factor = z
  .number()
  .min(0.02)
  .max(50)
  .describe('Times as likely as usual: 1 moves nothing, 4 is strong, above 10 wants a reason.');

export const minutes = z.number().min(0).max(600).describe('Minutes.');
export const money = z.number().min(0).max(5000).describe('US dollars.');
export const moneyRange = z
  .strictObject({ low: money, high: money })
  .refine((range) => range.low <= range.high, { message: 'low is above high', path: ['low'] })
  .describe('Usual price range in US dollars.');

export const sourceReference = z
  .string()
  .regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*( .{1,120})?$/, 'a source is its id, then, after a space, the place in it')
  .describe(
    'Where the numbers come from: the id of a file in content/sources/, then, after a space, the section or page. `common-practice` for rules of the trade, `from-memory` for values recalled and not seen.',
  )
  .meta({ reference: 'sources' });

export const needs = z
  .record(reference('traits'), z.array(id).min(1))
  .default({})
  .describe(
    'Traits of the engine without which this does not exist, as lists of values: { ignition: [waste-spark] }. Keys are ids of content/traits/.',
  );

export const formerly = z.array(id).default([]).describe('Ids that this file had before: saved jobs that name them are carried over.');
