/** A value of the wrong type, worded by the habit of YAML that most likely made it so. */
import type { Path } from './document.ts';
import type { ProblemCode } from './problem-codes.ts';
import { quoted } from './source-text.ts';

export interface Fault {
  readonly code: ProblemCode;
  readonly path: Path;
  /** Mark the key at the end of the path, not its value. */
  readonly atKey: boolean;
  readonly what: string;
  readonly mend: string;
}

/** The schema library's word for a type, as people say it. */
export const typeName = (expected: string): string =>
  ({
    string: 'text',
    number: 'a number',
    int: 'a whole number',
    boolean: 'true or false',
    array: 'a list',
    object: 'a map of fields',
    record: 'a map',
  })[expected] ?? expected;

/** `expected` as `typeName` words it; `says` is the field's description. */
export function typeFault(path: Path, field: string, input: unknown, expected: string, says: string | null): Fault {
  const fault = (code: ProblemCode, what: string, mend: string): Fault => ({ code, path, atKey: false, what: `${field} is ${what}`, mend });
  const must = `it must be ${expected}.`;
  if (typeof input === 'string') {
    if (expected === 'true or false' && /^(yes|no|on|off|y|n)$/i.test(input))
      return fault('yaml-boolean-word', `the word ${quoted(input)}; ${must}`, `Write ${/^(yes|on|y)$/i.test(input) ? 'true' : 'false'}.`);
    if (expected.includes('number') && /^[\d.,\s]*\d[\d.,\s]*$/.test(input) && input.includes(','))
      return fault('number-with-comma', `${quoted(input)}; a number has a point and no thousands mark.`, commaMend(input));
    if (expected.includes('number') && /^[\d.]+ ?%$/.test(input))
      return fault(
        'wrong-type',
        `${quoted(input)}; ${must}`,
        `Write ${Number((Number.parseFloat(input) / 100).toFixed(6))} for a share or a chance.`,
      );
    if (expected.includes('number') && /^[+-]?[\d.]+$/.test(input))
      return fault('wrong-type', `the text ${quoted(input)}; ${must}`, 'Take the quotation marks away.');
  }
  if (input === null)
    return fault(
      'wrong-type',
      `empty; ${must}`,
      says ? `Write it, or remove the field if it is not needed. The schema says: ${says}` : 'Write it, or remove the field.',
    );
  if (expected === 'text' && (typeof input === 'number' || typeof input === 'boolean'))
    return fault('wrong-type', `${quoted(input)}; ${must}`, `Put it into quotation marks: "${String(input)}".`);
  if (expected === 'text' && typeof input === 'object' && !Array.isArray(input))
    return fault('wrong-type', `a map; ${must}`, 'Put text that contains ": " into quotation marks.');
  if (expected === 'a list') return fault('wrong-type', `${quoted(input)}; ${must}`, 'Start each entry with "- " on a line of its own.');
  return fault(
    'wrong-type',
    `${quoted(input)}; ${must}`,
    says ? `Correct it, or its indentation. The schema says: ${says}` : 'Correct it, or its indentation.',
  );
}

/** One comma followed by other than three digits is a decimal comma; else the commas are thousands marks. */
const commaMend = (input: string): string =>
  /^\s*\d+,(\d{1,2}|\d{4,})\s*$/.test(input) || /^\s*0,/.test(input)
    ? `Write ${input.trim().replace(',', '.')}.`
    : `Write ${input.replaceAll(/[,\s]/g, '')}.`;
