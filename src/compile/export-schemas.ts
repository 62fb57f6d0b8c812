/** JSON Schemas (draft 7) of the exported files. Written by hand after `engine/knowledge.ts`; a test holds every file to them. */
type Schema = Readonly<Record<string, unknown>>;

const object = (properties: Readonly<Record<string, Schema>>, optional: readonly string[] = []): Schema => ({
  type: 'object',
  properties,
  required: Object.keys(properties).filter((key) => !optional.includes(key)),
  additionalProperties: false,
});
const table = (values: Schema): Schema => ({ type: 'object', additionalProperties: values });
const list = (items: Schema): Schema => ({ type: 'array', items });
const text: Schema = { type: 'string' };
const number: Schema = { type: 'number' };
const nonNegative: Schema = { type: 'number', minimum: 0 };
const chance: Schema = { type: 'number', minimum: 0, maximum: 1 };
const flag: Schema = { type: 'boolean' };
const orNull = (schema: Schema): Schema => ({ anyOf: [schema, { type: 'null' }] });
const ids = list(text);

const work = {
  attendedMinutes: nonNegative,
  waitingMinutes: nonNegative,
  money: nonNegative,
  tools: ids,
  setUps: ids,
  engineState: { enum: ['any', 'cold', 'warm', 'running'] },
} as const;
const needs = table(list(text));
const normal = object({ meanPercent: number, sdPercent: nonNegative });
const range = object({ low: nonNegative, high: nonNegative });

const family = object({
  id: text,
  title: text,
  commonness: chance,
  needs,
  remainder: chance,
  shares: table(chance),
  handOverMoney: nonNegative,
  handOverAttendedMinutes: nonNegative,
});
const repair = object({
  ...work,
  title: text,
  verifyMinutes: nonNegative,
  holds: chance,
  alsoFixes: table(chance),
  tryAsTest: flag,
  professionalOnly: flag,
  spoils: ids,
});
const cause = object(
  {
    id: text,
    title: text,
    scope: table(chance),
    needs,
    ageing: { enum: ['wears-out', 'steady', 'fails-early'] },
    shows: table(chance),
    conditions: table(chance),
    recentWork: table(nonNegative),
    trims: orNull(text),
    parts: ids,
    hidden: chance,
    otherCircuits: chance,
    repair,
  },
  ['otherCircuits'],
);
const check = object({
  ...work,
  id: text,
  title: text,
  after: ids,
  sameAs: list({ enum: ['trims', 'freeze-frame'] }),
  needs,
  outcomes: list(object({ id: text, title: text })),
  likelihood: table(list(chance)),
  otherwise: list(chance),
  repeats: flag,
  provokes: flag,
});
const code = object(
  {
    id: { type: 'string', pattern: '^[PCBU][0-3][0-9A-F]{3}$' },
    title: text,
    family: text,
    evidence: table(nonNegative),
    cylinder: orNull({ type: 'integer' }),
    bank: orNull({ type: 'integer' }),
    circuit: text,
  },
  ['circuit'],
);
const symptom = object({ id: text, title: text, engineDoesNotRun: flag, otherwise: chance }, ['engineDoesNotRun']);

const exported = (id: string, title: string, properties: Readonly<Record<string, Schema>>): Schema => ({
  $schema: 'http://json-schema.org/draft-07/schema#',
  title,
  ...object({ schema: { const: `/data/${id}.schema.json` }, version: { const: 1 }, licence: text, ...properties }),
});

export const exportSchemas: Readonly<Record<'knowledge' | 'family' | 'order', Schema>> = {
  knowledge: exported('knowledge', 'All compiled knowledge of Lampwise', {
    knowledge: object({
      hash: text,
      families: table(family),
      causes: table(cause),
      checks: table(check),
      codes: table(code),
      symptoms: table(symptom),
      conditions: table(
        object({
          id: text,
          title: text,
          otherwise: chance,
          freezeFrame: table(object({ above: number, below: number }, ['above', 'below'])),
        }),
      ),
      recentWork: table(object({ id: text, title: text })),
      parts: table(object({ id: text, title: text, price: range, earlyFailure: chance, work: orNull(text) })),
      traits: table(object({ id: text, title: text, values: table(chance), ageing: table(table(nonNegative)) })),
      scopes: table(object({ id: text, title: text, cylinderPatterns: table(chance), bankPatterns: table(chance) })),
      trimSignatures: table(object({ id: text, title: text, atIdle: normal, change: normal })),
      tools: table(object({ id: text, title: text, owned: flag, money: nonNegative })),
      setUps: table(
        object({
          id: text,
          title: text,
          attendedMinutes: nonNegative,
          waitingMinutes: nonNegative,
          money: nonNegative,
          tools: ids,
          setUps: ids,
        }),
      ),
    }),
  }),
  family: exported('family', 'One fault family of Lampwise', {
    family,
    tree: { type: 'array', items: { type: 'object', required: ['share'] } },
    codes: table(code),
    causes: table(cause),
    checks: table(check),
  }),
  order: exported('order', 'The computed order for one trouble code', {
    code: text,
    case: { type: 'object' },
    causes: list(object({ id: text, probability: chance })),
    steps: list(
      object({
        kind: { enum: ['check', 'repair', 'hand-over'] },
        id: text,
        title: text,
        settles: chance,
        attendedMinutes: nonNegative,
        waitingMinutes: nonNegative,
        money: nonNegative,
        cumulativeChance: chance,
        cumulativeCost: nonNegative,
      }),
    ),
    expectedCost: nonNegative,
    lowerBound: nonNegative,
    gap: nonNegative,
    orders: list(object({ strategy: text, expectedCost: nonNegative, chanceSolved: chance })),
  }),
};
