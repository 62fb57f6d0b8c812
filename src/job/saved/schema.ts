/** JSON Schema (2020-12) of a saved job: what export writes and import accepts. Published on the site. */

import { exposureUnits, replacementTimes, unitSystems } from '../state/job.ts';
import { savedForm, savedVersion } from './form.ts';

/** The part of JSON Schema that `validate.ts` reads; nothing else may be used below. */
export interface Schema {
  readonly type?: 'object' | 'array' | 'string' | 'number' | 'integer' | 'boolean' | 'null' | readonly string[];
  readonly const?: string | number;
  readonly enum?: readonly (string | null)[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Schema;
  readonly propertyNames?: { readonly pattern: string };
  readonly maxProperties?: number;
  readonly items?: Schema;
  readonly maxItems?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  /** Objects told apart by a constant `kind`. */
  readonly oneOf?: readonly Schema[];
  readonly description?: string;
  readonly title?: string;
  readonly $schema?: string;
  readonly $id?: string;
}

const idPattern = '^[a-z][a-z0-9]*(-[a-z0-9]+)*$';
const id: Schema = { type: 'string', pattern: idPattern, maxLength: 60 };
const idOrNull: Schema = { type: ['string', 'null'], pattern: idPattern, maxLength: 60 };
const ids: Schema = { type: 'array', items: id, maxItems: 300 };
const numberOrNull: Schema = { type: ['number', 'null'], minimum: -1e6, maximum: 1e7 };
const time: Schema = { type: 'number', minimum: 0, maximum: 1e14, description: 'Milliseconds since 1970.' };
const object = (properties: Readonly<Record<string, Schema>>, description?: string): Schema => ({
  type: 'object',
  properties,
  required: Object.keys(properties),
  additionalProperties: false,
  ...(description ? { description } : {}),
});
const some = (names: readonly string[]): Schema => ({
  type: 'object',
  properties: Object.fromEntries(names.map((name) => [name, { type: 'number', minimum: -1e6, maximum: 1e6 }])),
  additionalProperties: false,
});
const presences: Schema = {
  type: 'object',
  propertyNames: { pattern: idPattern },
  maxProperties: 300,
  additionalProperties: { type: 'string', enum: ['present', 'absent'] },
};
const cylinders: Schema = { type: 'array', items: { type: 'integer', minimum: 1, maximum: 16 }, maxItems: 16 };

const inputs = object({
  codesText: { type: 'string', maxLength: 100_000 },
  codes: { type: 'array', items: { type: 'string', pattern: '^[PCBU][0-3][0-9A-F]{3}$' }, maxItems: 300 },
  traits: { type: 'object', propertyNames: { pattern: idPattern }, maxProperties: 100, additionalProperties: id },
  cylinders: { type: ['integer', 'null'], minimum: 1, maximum: 16 },
  firingOrder: cylinders,
  bank1: cylinders,
  recentWork: ids,
  symptoms: presences,
  conditions: presences,
  freezeFrame: some([
    'engineSpeedRpm',
    'loadPercent',
    'coolantCelsius',
    'intakeAirCelsius',
    'vehicleSpeedKmh',
    'manifoldKpa',
    'airFlowGramsPerSecond',
    'throttlePercent',
    'shortTrim1Percent',
    'longTrim1Percent',
    'shortTrim2Percent',
    'longTrim2Percent',
  ]),
  trims: some(['idleBank1Percent', 'idleBank2Percent', 'at2500Bank1Percent', 'at2500Bank2Percent']),
  replaced: { type: 'array', maxItems: 300, items: object({ part: id, when: { type: 'string', enum: replacementTimes } }) },
  tools: ids,
  hourlyRate: { type: ['number', 'null'], minimum: 0, maximum: 1000 },
  engineIsWarm: { type: ['boolean', 'null'] },
  modelYear: { type: ['integer', 'null'], minimum: 1900, maximum: 2200 },
  units: { type: 'string', enum: unitSystems },
});

const entryOf = (kind: string, fields: Readonly<Record<string, Schema>>): Schema =>
  object({
    kind: { type: 'string', const: kind },
    id: { type: 'integer', minimum: 1, maximum: 1e9 },
    at: time,
    note: { type: 'string', maxLength: 2000 },
    ...fields,
  });

const entry: Schema = {
  oneOf: [
    entryOf('result', { check: id, outcome: id, reading: numberOrNull, before: { type: 'boolean' } }),
    entryOf('cannot', { action: id }),
    entryOf('aside', { action: id }),
    entryOf('found', { cause: idOrNull }),
    entryOf('repair', { cause: idOrNull, outcome: { type: 'string', enum: ['gone', 'still-there'] } }),
    entryOf('returned', { cause: idOrNull }),
    entryOf('ended', { how: { type: 'string', enum: ['proven', 'handed-over', 'given-up'] } }),
  ],
};

export const jobSchema: Schema = object({
  id: { type: 'string', pattern: '^[A-Za-z0-9-]{1,60}$' },
  name: { type: 'string', maxLength: 120 },
  startedAt: time,
  inputs,
  timeline: { type: 'array', items: entry, maxItems: 2000, description: 'What was answered, in order.' },
  nextEntry: { type: 'integer', minimum: 1, maximum: 1e9 },
  proof: object({
    unit: { type: 'string', enum: exposureUnits },
    returnsBefore: { type: ['number', 'null'], minimum: 0, maximum: 1e5 },
    exposureBefore: { type: ['number', 'null'], minimum: 0, maximum: 1e7 },
    clean: { type: 'number', minimum: 0, maximum: 1e7 },
    ticked: { type: 'array', items: { type: 'string', pattern: '^[a-z0-9:-]{1,80}$' }, maxItems: 200 },
  }),
});

export const savedSchema: Schema = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'Saved Lampwise job',
  ...object({
    form: { type: 'string', const: savedForm },
    version: { type: 'integer', const: savedVersion },
    content: { type: 'string', maxLength: 128, description: 'Hash of the content that it was made with.' },
    job: jobSchema,
  }),
};
