import { z } from 'zod';
import {
  factor,
  formerly,
  line,
  minutes,
  needs,
  probability,
  prose,
  reference,
  references,
  sourceReference,
  step,
  synonyms,
} from './scalars.ts';
import { consumablesMoney, steps, workFields } from './work.ts';

export const torque = z
  .strictObject({
    what: line.describe('Fastener and joint: "M6 bolts, valve flange on aluminium".'),
    newtonMetres: z
      .strictObject({
        low: z.number().gt(0).max(400).describe('Lowest usual torque, N·m.'),
        high: z.number().gt(0).max(400).describe('Highest usual torque, N·m.'),
      })
      .refine((range) => range.low <= range.high, { message: 'low is above high', path: ['low'] })
      .describe('Usual range in N·m.'),
    note: line.optional(),
    source: sourceReference,
  })
  .describe('Fall-back torque by size of fastener. Pages always put the value of the service information first.');

const repairPart = z.strictObject({
  part: reference('parts'),
  count: z.number().int().min(1).max(16).default(1).describe('Pieces.'),
  only: line.optional().describe('When it is needed only sometimes: "if the seal is torn".'),
});

export const repair = z
  .strictObject({
    title: line.describe('The repair as an instruction: "Clean the valve and its passages; fit a new gasket".'),
    ...workFields,
    money: consumablesMoney,
    parts: z.array(repairPart).default([]).describe('Parts that the repair buys.'),
    steps,
    torque: z.array(torque).default([]).describe('Fall-back torques of the fasteners that it turns.'),
    tryAsTest: z.boolean().default(false).describe('Cheap and harmless enough to try before the cause is confirmed (clean-and-see).'),
    professionalOnly: z.boolean().default(false).describe('Only for a professional; the plan hands over instead.'),
    holds: probability.describe('Chance that the repair, done right, removes this cause.'),
    alsoFixes: z
      .record(reference('causes'), probability)
      .default({})
      .describe('Other causes that this repair removes too, with the chance. Keys are ids of content/causes/.'),
    verify: z
      .strictObject({ minutes, how: prose })
      .describe('How one knows at once whether the fault is gone: what to run, what to read, attended minutes.'),
    relearn: z.array(step).default([]).describe('Relearning that follows: idle, throttle, crank variation, trims.'),
    closeUp: z.array(step).min(1).describe('What to check before closing up.'),
    spoils: references('checks').default([]).describe('Checks whose earlier results no longer hold after this repair.'),
    source: sourceReference,
  })
  .describe('The repair of this cause: what it costs, how it is done and how one knows that it worked.');

export const cause = z
  .strictObject({
    title: line.describe('The fault, as the trade says it: "Carbon holds the recirculation valve open".'),
    also: synonyms.describe('Other names that people search for.'),
    formerly,
    what: prose.describe('The physical reason: how it fails and how that makes the code.'),
    tellApart: z
      .array(z.strictObject({ from: reference('causes'), how: prose }))
      .default([])
      .describe('How to tell it from a cause that looks alike.'),
    scope: z
      .union([reference('scopes'), z.record(reference('scopes'), z.number().gt(0).max(1))])
      .describe('What it reaches, an id of content/scopes/ or a mixture of them summing to 1: { one-cylinder: 0.7, all-cylinders: 0.3 }.'),
    needs,
    ageing: z.enum(['wears-out', 'steady', 'fails-early']).describe('How its rate moves with mileage.'),
    shows: z
      .record(reference('symptoms'), probability)
      .describe('Symptoms with the chance that it shows them. Keys are ids of content/symptoms/.'),
    conditions: z
      .record(reference('conditions'), probability)
      .default({})
      .describe('Conditions under which it shows, with the chance that the fault was noticed there. Keys are ids of content/conditions/.'),
    recentWork: z
      .record(reference('recent-work'), factor)
      .default({})
      .describe('Times as likely when that was the last work on the car. Keys are ids of content/recent-work/.'),
    trims: reference('trim-signatures').optional().describe('How it moves the fuel trims.'),
    parts: references('parts').default([]).describe('Parts whose replacement removes it.'),
    hidden: z
      .number()
      .min(0)
      .max(0.9)
      .default(0)
      .describe('Chance that the fault is away while the car stands in the garage (intermittent).'),
    otherCircuits: z
      .number()
      .min(0)
      .max(0.95)
      .default(0)
      .describe(
        'Chance, for each further circuit of a family that has a code, that this same fault set it: high for a shared supply, ground, plug or loom, 0 for a fault of one circuit.',
      ),
    repair,
    source: sourceReference.describe('Source of the numbers of this file that name none of their own.'),
  })
  .describe('One cause: what it is, what it shows, how it is mended.');
export type CauseFile = z.infer<typeof cause>;
export type RepairFile = z.infer<typeof repair>;
