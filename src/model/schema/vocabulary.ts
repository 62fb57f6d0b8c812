/** The small shared vocabularies: one schema each. */
import { z } from 'zod';
import {
  factor,
  id,
  line,
  minutes,
  money,
  moneyRange,
  probability,
  prose,
  reference,
  references,
  sourceReference,
  step,
  synonyms,
} from './scalars.ts';
import { hazards } from './work.ts';

export const driving = z
  .enum(['stop', 'home-only', 'gently', 'as-usual'])
  .describe('stop: do not drive; home-only: short and gentle, then park it; gently: drivable, mend it soon; as-usual.');

export const symptom = z
  .strictObject({
    title: line.describe('In everyday words: "Shakes at a stop light".'),
    asks: line.describe('As a question to the driver.'),
    also: synonyms.describe('How else people say it: feeds the search.'),
    group: z
      .enum([
        'lamp',
        'starting',
        'idle',
        'pulling',
        'cruising',
        'noise',
        'smell-and-smoke',
        'fuel',
        'temperature',
        'electrical',
        'inspection',
      ])
      .describe('Where the list of symptoms shows it.'),
    means: prose.describe('What it tells physically.'),
    otherwise: probability.describe('Chance that a car shows it while its cause does not list it.'),
    engineDoesNotRun: z
      .boolean()
      .default(false)
      .describe('true if the engine cannot be made to run while it shows: checks on a running engine then fall away.'),
    driving,
    drivingWhy: prose,
    source: sourceReference,
  })
  .describe('A symptom in the words of the driver.');
export type SymptomFile = z.infer<typeof symptom>;

const bounds = z
  .strictObject({
    above: z.number().optional().describe('Present from this value up.'),
    below: z.number().optional().describe('Present below this value.'),
  })
  .describe('Bounds in the unit that the name ends with.');
export const freezeFrameKeys = [
  'engineSpeedRpm',
  'loadPercent',
  'coolantCelsius',
  'intakeAirCelsius',
  'vehicleSpeedKmh',
  'manifoldKpa',
  'airFlowGramsPerSecond',
  'throttlePercent',
] as const;
export const condition = z
  .strictObject({
    title: line.describe('"In wet weather".'),
    asks: line,
    also: synonyms,
    means: prose,
    otherwise: probability.describe('Chance that a fault was noticed there while its cause does not list the condition.'),
    freezeFrame: z
      .partialRecord(z.enum(freezeFrameKeys), bounds)
      .default({})
      .describe('Freeze-frame bounds which together say that the condition held. Empty: only by asking.'),
    source: sourceReference,
  })
  .describe('A condition under which a fault shows.');
export type ConditionFile = z.infer<typeof condition>;

export const tool = z
  .strictObject({
    title: line,
    also: synonyms,
    what: prose.describe('What it is and what to look for when choosing one.'),
    owned: z.boolean().describe('true if nearly every home mechanic has it.'),
    price: moneyRange,
    borrowMoney: money.optional().describe('Cost of borrowing or hiring it, where that is usual.'),
    use: prose.describe('How to use it without harm to it, to the car or to oneself.'),
    hazards,
    source: sourceReference,
  })
  .describe('A tool or instrument.');
export type ToolFile = z.infer<typeof tool>;

/** Symbols of ISO 7010 that cautions may show. */
export const safetySymbols = [
  'W001',
  'W002',
  'W012',
  'W016',
  'W017',
  'W018',
  'W019',
  'W021',
  'W022',
  'W023',
  'W024',
  'W026',
  'W029',
  'W038',
  'W046',
  'M001',
  'M002',
  'M003',
  'M004',
  'M009',
  'M016',
  'M021',
  'P003',
] as const;
export const caution = z
  .strictObject({
    title: line.describe('The hazard in two to five words: "Fuel under pressure".'),
    signal: z
      .enum(['DANGER', 'WARNING', 'CAUTION', 'NOTICE'])
      .describe('ANSI Z535.6: DANGER will kill or maim, WARNING could, CAUTION could injure slightly, NOTICE harms only things.'),
    symbols: z.array(z.enum(safetySymbols)).describe('ISO 7010 numbers. Empty for NOTICE.'),
    hazard: prose.describe('What hurts or breaks, and how.'),
    avoid: z.array(step).min(1).describe('What to do about it, one action a line.'),
    handOver: prose.optional().describe('When this is work for a licensed professional.'),
    appliesTo: z
      .strictObject({
        engineStates: z
          .array(z.enum(['cold', 'warm', 'running']))
          .default([])
          .describe('Work with the engine in one of these states. Running work counts as warm too.'),
        tools: references('tools').default([]),
        setUps: references('set-ups').default([]),
        parts: references('parts').default([]),
        words: z
          .array(z.string().min(2).max(60))
          .default([])
          .describe('Phrases; work whose steps contain one (whole words, any case) gets this caution.'),
      })
      .describe('The rule by which work gets this caution without naming it.'),
    source: sourceReference,
  })
  .describe('A hazard and how to avoid it. Pages get it by rule.');
export type CautionFile = z.infer<typeof caution>;

export const setUp = z
  .strictObject({
    title: line.describe('"Engine cover off".'),
    what: prose,
    attendedMinutes: minutes.describe('There and back.'),
    waitingMinutes: minutes.default(0),
    money: money.default(0),
    tools: references('tools').default([]),
    setUps: references('set-ups').default([]).describe('Set-ups that this one stands on.'),
    steps: z.array(step).min(1).describe('What to do, one action a step.'),
    whileThere: z.array(step).default([]).describe('What else to look at while in there.'),
    hazards,
    source: sourceReference,
  })
  .describe('Access work that several checks and repairs share: paid once a job.');
export type SetUpFile = z.infer<typeof setUp>;

export const source = z
  .strictObject({
    title: line,
    kind: z.enum(['law', 'standard', 'handbook', 'paper', 'data', 'opinion']).describe('What sort of source it is.'),
    publisher: line.optional(),
    edition: line.optional(),
    read: z
      .enum(['read', 'second-hand', 'memory', 'practice'])
      .describe('How well it is known: read in the source; in a second source; recalled; a rule of the trade.'),
    what: prose.describe('What it is used for here, and what it cannot carry.'),
  })
  .describe('Where numbers come from.');
export type SourceFile = z.infer<typeof source>;

const traitValue = z.strictObject({
  id,
  title: line,
  share: z.number().gt(0).max(1).describe('Share among older petrol cars, before anything is known.'),
  ageing: z
    .strictObject({ 'wears-out': factor, steady: factor, 'fails-early': factor })
    .optional()
    .describe('Only for the age band: factors on causes by how they age.'),
  look: line.optional().describe('How to see that this is the car at hand.'),
});
export const trait = z
  .strictObject({
    title: line,
    asks: line,
    also: synonyms,
    what: prose,
    values: z
      .array(traitValue)
      .min(2)
      .refine(
        (values) => Math.abs(values.reduce((sum, value) => sum + value.share, 0) - 1) < 0.011,
        'the shares of the values must sum to 1',
      )
      .describe('The values that a car may have, with the share of each.'),
    source: sourceReference,
  })
  .describe('A trait of the engine that decides which causes and checks exist.');
export type TraitFile = z.infer<typeof trait>;

export const part = z
  .strictObject({
    title: line,
    also: synonyms,
    price: moneyRange.describe('For one piece, US dollars.'),
    earlyFailure: probability.describe('Chance that the new part is bad, wrong or wrongly fitted.'),
    work: reference('recent-work').optional().describe('The kind of work that fitting it is.'),
    oneTimeUse: z.boolean().default(false).describe('Replaced whenever it is disturbed (gaskets, stretch bolts, crush washers).'),
    advice: prose.optional().describe('What to watch for when buying it.'),
    source: sourceReference,
  })
  .describe('A part that one buys.');
export type PartFile = z.infer<typeof part>;

export const recentWork = z
  .strictObject({
    title: line,
    asks: line,
    also: synonyms,
    leaves: prose.describe('What such work tends to leave behind.'),
    source: sourceReference,
  })
  .describe('What was worked on last.');
export type RecentWorkFile = z.infer<typeof recentWork>;

const distribution = (keys: readonly [string, ...string[]]) =>
  z
    .strictObject(
      Object.fromEntries(keys.map((key) => [key, z.number().min(0).max(1).describe(`Chance of the pattern ${key}.`)])) as Record<
        string,
        z.ZodNumber
      >,
    )
    .refine((row) => Math.abs(Object.values(row).reduce((sum, value) => sum + value, 0) - 1) < 0.0051, 'must sum to 1');
export const cylinderPatterns = ['single', 'companion-pair', 'neighbours', 'one-bank', 'several', 'random'] as const;
export const bankPatterns = ['one-bank', 'both-banks'] as const;
export const scope = z
  .strictObject({
    title: line,
    what: prose,
    cylinderPatterns: distribution(cylinderPatterns).describe('P(pattern of misfiring cylinders | a cause of this scope).'),
    bankPatterns: distribution(bankPatterns).describe('P(banks with a code | a cause of this scope), on an engine with two banks.'),
    source: sourceReference,
  })
  .describe('What a fault reaches.');
export type ScopeFile = z.infer<typeof scope>;

const normal = z
  .strictObject({
    meanPercent: z.number().min(-50).max(50).describe('Mean, percent.'),
    sdPercent: z.number().min(1).max(30).describe('Standard deviation, percent.'),
  })
  .describe('A normal distribution.');
export const trimSignature = z
  .strictObject({
    title: line,
    what: prose.describe('The physics that shapes it.'),
    atIdle: normal.describe('Total trim at warm idle.'),
    change: normal.describe('Total trim at 2,500 rpm minus at idle.'),
    source: sourceReference,
  })
  .describe('How a kind of fault moves the fuel trims at two speeds.');
export type TrimSignatureFile = z.infer<typeof trimSignature>;

export const term = z
  .strictObject({
    title: line,
    also: synonyms.describe('Other forms in which texts use it.'),
    means: prose,
    see: references('terms').default([]),
    source: sourceReference,
  })
  .describe('A term of the trade, explained once.');
export type TermFile = z.infer<typeof term>;

export const monitor = z
  .strictObject({
    title: line,
    what: prose,
    runs: z.enum(['continuous', 'once-a-trip']).describe('Whether it judges all the time, or once in a trip when its conditions hold.'),
    bit: line.optional().describe('Where SAE J1979 service 01 PID 01 shows it.'),
    before: z.array(step).default([]).describe('What must hold before it runs: fuel level, cold soak, no codes.'),
    drive: z.array(step).min(1).describe('A drive that usually lets it run, step by step.'),
    minutes: minutes.describe('Usual driving minutes.'),
    source: sourceReference,
  })
  .describe('A readiness monitor and the drive that runs it.');
export type MonitorFile = z.infer<typeof monitor>;

const codeEntry = z.strictObject({
  title: line.describe('In our own words, true to the standard.'),
  meaning: prose.optional().describe('What is special about this code within its group.'),
  cylinder: z.number().int().min(1).max(12).optional().describe('The cylinder that the code names.'),
  bank: z.number().int().min(1).max(2).optional().describe('The bank that the code names.'),
  circuit: id
    .optional()
    .describe(
      'The plug and wires that this code speaks of, if it speaks of any: crank-sensor, coil-a. With its cylinder or bank it is one circuit. Codes of several circuits of a family speak for what those share.',
    ),
  evidence: z
    .record(reference('causes'), factor)
    .default({})
    .describe('Causes that this code makes more or less likely than its family in general. Keys are ids of content/causes/.'),
});
export const codeGroup = z
  .strictObject({
    title: line.describe('Name of the group of codes: "Misfire, by cylinder".'),
    family: reference('families'),
    meaning: prose.describe('What the control module saw before it set such a code.'),
    lamp: prose.describe('How the lamp behaves with it.'),
    driving,
    drivingWhy: prose,
    codes: z
      .record(z.string().regex(/^[PCBU][0-3][0-9A-F]{3}$/, 'a code is a letter and four characters, such as P0301'), codeEntry)
      .describe('The codes of the group: their letter and four characters are the keys.'),
    source: sourceReference,
  })
  .describe('A group of neighbouring codes of one standard block.');
export type CodeGroupFile = z.infer<typeof codeGroup>;
