/** A value against a schema: the subset of JSON Schema that `schema.ts` uses, with faults that name the place. */
import type { Schema } from './schema.ts';

/** Faults as sentences; at most this many, for a hostile file can hold thousands. */
const mostFaults = 20;

export function validate(value: unknown, schema: Schema): readonly string[] {
  const faults: string[] = [];
  visit(value, schema, '', faults);
  return faults;
}

function visit(value: unknown, schema: Schema, path: string, faults: string[]): void {
  const fault = (what: string) => {
    if (faults.length < mostFaults) faults.push(`${path === '' ? 'The file' : path} ${what}.`);
  };
  if (faults.length >= mostFaults) return;
  if (schema.oneOf) {
    const kind = isObject(value) && Object.hasOwn(value, 'kind') ? value['kind'] : undefined;
    const branch = schema.oneOf.find((candidate) => candidate.properties?.['kind']?.const === kind);
    if (branch) visit(value, branch, path, faults);
    else fault('is of no known kind');
    return;
  }
  const types = schema.type === undefined ? [] : typeof schema.type === 'string' ? [schema.type] : schema.type;
  if (types.length > 0 && !types.some((type) => hasType(value, type))) {
    fault(`must be ${types.map(inWords).join(' or ')}`);
    return;
  }
  if (schema.const !== undefined && value !== schema.const) {
    fault(`must be ${JSON.stringify(schema.const)}`);
    return;
  }
  if (schema.enum && !schema.enum.includes(value as string)) {
    fault(`must be one of ${schema.enum.join(', ')}`);
    return;
  }
  if (typeof value === 'string') visitText(value, schema, fault);
  if (typeof value === 'number') {
    if (schema.minimum !== undefined && value < schema.minimum) fault(`must be at least ${schema.minimum}`);
    if (schema.maximum !== undefined && value > schema.maximum) fault(`must be at most ${schema.maximum}`);
  }
  if (Array.isArray(value)) {
    if (schema.maxItems !== undefined && value.length > schema.maxItems) {
      fault(`has more than ${schema.maxItems} entries`);
      return;
    }
    if (schema.items) for (const [index, item] of value.entries()) visit(item, schema.items, `${path}[${index}]`, faults);
  } else if (isObject(value)) visitObject(value, schema, path, faults, fault);
}

function visitText(value: string, schema: Schema, fault: (what: string) => void): void {
  // Characters as JSON Schema counts them: code points.
  if (schema.maxLength !== undefined && value.length > schema.maxLength && [...value].length > schema.maxLength)
    fault(`is longer than ${schema.maxLength} characters`);
  else if (schema.pattern && !new RegExp(schema.pattern, 'u').test(value)) fault(`has a form that is not allowed: ${shortened(value)}`);
}

function visitObject(
  value: Readonly<Record<string, unknown>>,
  schema: Schema,
  path: string,
  faults: string[],
  fault: (what: string) => void,
): void {
  const keys = Object.keys(value);
  const at = (key: string) => (path === '' ? key : `${path}.${key}`);
  if (schema.maxProperties !== undefined && keys.length > schema.maxProperties) {
    fault(`has more than ${schema.maxProperties} keys`);
    return;
  }
  for (const key of schema.required ?? []) if (!Object.hasOwn(value, key)) fault(`lacks "${key}"`);
  const names = schema.propertyNames ? new RegExp(schema.propertyNames.pattern, 'u') : null;
  for (const key of keys) {
    if (names && !names.test(key)) fault(`has a key of a form that is not allowed: ${shortened(key)}`);
    const own = schema.properties && Object.hasOwn(schema.properties, key) ? schema.properties[key]! : undefined;
    if (own) visit(value[key], own, at(key), faults);
    else if (schema.additionalProperties === false) fault(`has an unknown key ${shortened(key)}`);
    else if (typeof schema.additionalProperties === 'object') visit(value[key], schema.additionalProperties, at(key), faults);
  }
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function hasType(value: unknown, type: string): boolean {
  switch (type) {
    case 'null':
      return value === null;
    case 'array':
      return Array.isArray(value);
    case 'object':
      return isObject(value);
    case 'integer':
      return Number.isInteger(value);
    case 'number':
      return typeof value === 'number' && Number.isFinite(value);
    default:
      return typeof value === type;
  }
}

const words: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
  null: 'null',
};
const inWords = (type: string): string => words[type] ?? type;
const shortened = (text: string): string => JSON.stringify(text.length > 40 ? `${text.slice(0, 40)}…` : text);
