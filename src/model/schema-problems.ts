/** zod issues -> problems with positions and sentences. The one place that words schema faults. */
import type { z } from 'zod';
import type { Path, YamlDocument } from './document.ts';
import { didYouMean } from './nearest.ts';
import type { Problem } from './problem.ts';
import type { ProblemCode } from './problem-codes.ts';

type Issue = z.core.$ZodIssue;

/** Validates a document. Returns the parsed value, or undefined and every problem at its place. */
export function validate<T>(
  document: YamlDocument,
  schema: z.ZodType<T>,
): { readonly value: T | undefined; readonly problems: readonly Problem[] } {
  const result = schema.safeParse(document.value, { reportInput: true });
  if (result.success) return { value: result.data, problems: [] };
  return { value: undefined, problems: result.error.issues.flatMap((issue) => problemsOf(issue, [], document)) };
}

function problemsOf(issue: Issue, prefix: Path, document: YamlDocument): Problem[] {
  const path = [...prefix, ...(issue.path as (string | number)[])];
  const make = (code: ProblemCode, what: string, mend: string, position = document.at(path)): Problem => ({
    code,
    severity: 'error',
    file: document.file.path,
    ...position,
    what,
    mend,
  });
  const field = path.length ? path.join('.') : 'the file';
  const input = valueAt(document.value, path);

  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) =>
        make(
          'unknown-field',
          `${path.length ? `In ${path.join('.')}, the` : 'The'} field "${key}" is not known.`,
          `Remove it.${didYouMean(key, issueKeys(document, path, issue))}`,
          document.atKey([...path, key]),
        ),
      );
    case 'invalid_type':
      if (input === undefined)
        return [
          make(
            'missing-field',
            `The field "${field}" is missing (${describe(issue.expected)}).`,
            `Add it. See the template of this kind of file.`,
          ),
        ];
      return [wrongType(make, field, input, describe(issue.expected))];
    case 'invalid_value':
      if (input === undefined)
        return [make('missing-field', `The field "${field}" is missing (one of ${issue.values.join(', ')}).`, 'Add it.')];
      return [
        make(
          'not-in-list',
          `"${field}" is ${show(input)}; it must be one of ${issue.values.join(', ')}.`,
          `Choose one of them.${didYouMean(String(input), issue.values.map(String))}`,
        ),
      ];
    case 'too_big':
    case 'too_small': {
      const bound =
        issue.code === 'too_big' ? `at most ${issue.maximum}` : `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}`;
      const unit = issue.origin === 'string' ? ' characters' : issue.origin === 'array' ? ' entries' : '';
      const size =
        issue.origin === 'number' || issue.origin === 'int'
          ? `is ${show(input)}`
          : `has ${(input as { length?: number })?.length ?? 0}${unit}`;
      return [
        make(
          'out-of-range',
          `"${field}" ${size}; it must ${issue.origin === 'number' || issue.origin === 'int' ? 'be' : 'have'} ${bound}${unit}.`,
          'Correct the value.',
        ),
      ];
    }
    case 'invalid_format':
      return [make('bad-form', `"${field}" is ${show(input)}: ${issue.message}.`, 'Write it in that form.')];
    case 'invalid_union': {
      if (input === undefined)
        return [make('missing-field', `The field "${field}" is missing.`, 'Add it. See the template of this kind of file.')];
      return bestOfUnion(issue.errors, path, document, input, make, field);
    }
    case 'invalid_key':
      return [
        make(
          'bad-form',
          `The key "${String(path.at(-1))}" is not allowed here: ${issue.issues[0]?.message ?? issue.message}.`,
          'Write it in that form.',
          document.atKey(path),
        ),
      ];
    default:
      return [make('bad-value', `"${field}": ${issue.message}.`, 'Correct the value.')];
  }
}

type Make = (code: ProblemCode, what: string, mend: string) => Problem;

/** Words the traps of YAML scalars by their own codes before falling back to "wrong type". */
function wrongType(make: Make, field: string, input: unknown, expected: string): Problem {
  if (expected.includes('true or false') && typeof input === 'string' && /^(yes|no|on|off|y|n)$/i.test(input))
    return make(
      'yaml-boolean-word',
      `"${field}" is the word ${show(input)}; it must be true or false.`,
      `Write ${/^(yes|on|y)$/i.test(input) ? 'true' : 'false'}.`,
    );
  if (expected.includes('number') && typeof input === 'string' && /^[\d.,\s]+$/.test(input) && input.includes(','))
    return make(
      'number-with-comma',
      `"${field}" is ${show(input)}; a number has a point and no thousands mark.`,
      `Write ${input.replace(',', '.')} or leave the comma out.`,
    );
  return make('wrong-type', `"${field}" is ${show(input)}; it must be ${expected}.`, 'Correct the value, or its indentation.');
}

/** A union failed in every branch: report the branch that came furthest, or all expectations when none took the shape. */
function bestOfUnion(
  errors: readonly (readonly Issue[])[],
  path: Path,
  document: YamlDocument,
  input: unknown,
  make: Make,
  field: string,
): Problem[] {
  const depth = (issues: readonly Issue[]) =>
    Math.max(...issues.map((issue) => issue.path.length + (issue.code === 'unrecognized_keys' || issue.code === 'invalid_type' ? 0 : 1)));
  const ranked = [...errors].sort(
    (a, b) =>
      a.filter((issue) => issue.path.length === 0).length - b.filter((issue) => issue.path.length === 0).length || depth(b) - depth(a),
  );
  const best = ranked[0] ?? [];
  if (best.every((issue) => issue.path.length === 0 && issue.code === 'invalid_type')) {
    const expected = errors
      .flat()
      .map((issue) =>
        issue.code === 'invalid_type'
          ? describe(issue.expected)
          : issue.code === 'invalid_value'
            ? `one of ${issue.values.join(', ')}`
            : 'another value',
      );
    return [wrongType(make, field, input, [...new Set(expected)].join(' or '))];
  }
  // A scalar that is a number out of range, or a word outside the list: say both ways of writing it.
  if (typeof input !== 'object' || input === null) {
    const words = errors.flat().flatMap((issue) => (issue.code === 'invalid_value' ? issue.values.map(String) : []));
    const range = errors.flat().find((issue) => issue.code === 'too_big' || issue.code === 'too_small');
    if (range && typeof input === 'number') return problemsOf(range, path, document);
    if (typeof input === 'string' && words.length)
      return [
        /^[\d.,\s]+$/.test(input)
          ? wrongType(make, field, input, 'a number')
          : make(
              'not-in-list',
              `"${field}" is ${show(input)}; it must be a number or one of ${words.join(', ')}.`,
              `Choose one of them.${didYouMean(input, words)}`,
            ),
      ];
  }
  return best.flatMap((issue) => problemsOf(issue, path, document));
}

/** Names of the fields that the schema would have taken there, recovered from its JSON form on the issue's instance. */
function issueKeys(document: YamlDocument, path: Path, issue: Issue): string[] {
  const known = (issue as { inst?: { _zod?: { def?: { shape?: Record<string, unknown> } } } }).inst?._zod?.def?.shape;
  if (known) return Object.keys(known);
  const here = valueAt(document.value, path);
  return here && typeof here === 'object' ? Object.keys(here) : [];
}

const describe = (expected: string): string =>
  ({
    string: 'text',
    number: 'a number',
    int: 'a whole number',
    boolean: 'true or false',
    array: 'a list',
    object: 'a map of fields',
    record: 'a map',
  })[expected] ?? expected;

const show = (value: unknown): string => {
  if (value === null) return 'empty';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a map';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…"` : text;
};

function valueAt(root: unknown, path: Path): unknown {
  let value = root;
  for (const key of path) {
    if (value === null || typeof value !== 'object' || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<string | number, unknown>)[key];
  }
  return value;
}
