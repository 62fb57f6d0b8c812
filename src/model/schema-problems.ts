/** zod issues -> problems with positions and sentences. With `type-faults.ts` the one place that words schema faults. */
import type { z } from 'zod';
import type { Path, YamlDocument } from './document.ts';
import { didYouMean } from './nearest.ts';
import type { Position, Problem } from './problem.ts';
import type { ProblemCode } from './problem-codes.ts';
import { descriptionAt, fieldsAt } from './schema-fields.ts';
import { quoted } from './source-text.ts';
import { type Fault, typeFault, typeName } from './type-faults.ts';

type Issue = z.core.$ZodIssue;

const reportedAtMost = 500;

/** Validates a document. Returns the parsed value, or undefined and every problem at its place (the first 500 of one file). */
export function validate<T>(
  document: YamlDocument,
  schema: z.ZodType<T>,
): { readonly value: T | undefined; readonly problems: readonly Problem[] } {
  const result = schema.safeParse(document.value);
  if (result.success) return { value: result.data, problems: [] };
  const faults = result.error.issues.flatMap((issue) => faultsOf(issue, [], document.value, schema));
  const problem = (code: ProblemCode, position: Position, what: string, mend: string): Problem => ({
    code,
    severity: 'error',
    file: document.file.path,
    ...position,
    what,
    mend,
  });
  const problems = faults
    .slice(0, reportedAtMost)
    .map((fault) => problem(fault.code, fault.atKey ? document.atKey(fault.path) : document.at(fault.path), fault.what, fault.mend));
  if (faults.length > reportedAtMost)
    problems.push(
      problem(
        'too-many-problems',
        document.at([]),
        `The file has ${faults.length} problems; the first ${reportedAtMost} are shown.`,
        'Start again from the template of this kind of file.',
      ),
    );
  return { value: undefined, problems };
}

/** The faults that one issue stands for. `prefix` leads from the file to where the issue's own path starts. */
function faultsOf(issue: Issue, prefix: Path, root: unknown, schema: z.ZodType): Fault[] {
  const path = [...prefix, ...(issue.path as (string | number)[])];
  const input = valueAt(root, path);
  const field = fieldName(path);
  const one = (code: ProblemCode, what: string, mend: string, atKey = false): Fault[] => [{ code, path, atKey, what, mend }];
  const says = descriptionAt(schema, path);
  if (input === undefined && ['invalid_type', 'invalid_value', 'invalid_union'].includes(issue.code))
    return one(
      'missing-field',
      `The field ${field} is missing.`,
      says ? `Add it. The schema says: ${says}` : 'Add it. See the template of this kind of file.',
    );

  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownField(path, key, input, schema));
    case 'invalid_type':
      return [typeFault(path, field, input, typeName(issue.expected), says)];
    case 'invalid_value':
      return one(
        'not-in-list',
        `${field} is ${quoted(input)}; it must be one of ${issue.values.join(', ')}.`,
        `Choose one of them.${didYouMean(String(input), issue.values.map(String))}`,
      );
    case 'too_big':
    case 'too_small':
      return one('out-of-range', rangeSentence(issue, field, input), says ? `Correct it. The schema says: ${says}` : 'Correct it.');
    case 'invalid_format':
      return one('bad-form', `${field} is ${quoted(input)}; ${issue.message}.`, 'Write it in that form.');
    case 'invalid_key':
      return one(
        'bad-form',
        `The key ${quoted(path.at(-1))} cannot stand here; ${issue.issues[0]?.message ?? issue.message}.`,
        'Write it in that form.',
        true,
      );
    case 'invalid_union':
      return unionFaults(issue.errors, path, input, root, schema);
    default:
      return one('bad-value', `${field}: ${issue.message}.`, says ? `Correct it. The schema says: ${says}` : 'Correct it.');
  }
}

/** A union failed in every branch: report the branch that came nearest, or all expectations when none has the shape of the value. */
function unionFaults(branches: readonly (readonly Issue[])[], path: Path, input: unknown, root: unknown, schema: z.ZodType): Fault[] {
  const own = (issues: readonly Issue[]) => issues.filter((issue) => issue.path.length === 0);
  const foreign = (issues: readonly Issue[]) => own(issues).some((issue) => ['invalid_type', 'invalid_value'].includes(issue.code));
  const strange = (issues: readonly Issue[]) =>
    issues.reduce((count, issue) => {
      if (issue.code === 'unrecognized_keys' && issue.path.length === 0) return count + issue.keys.length;
      const missing = issue.path.length === 1 && valueAt(root, [...path, ...(issue.path as (string | number)[])]) === undefined;
      return count + (missing ? 1 : 0);
    }, 0);
  const [nearest] = branches.filter((issues) => !foreign(issues)).sort((a, b) => strange(a) - strange(b));
  if (nearest) return nearest.flatMap((issue) => faultsOf(issue, path, root, schema));

  const words = branches.flat().flatMap((issue) => (issue.code === 'invalid_value' ? issue.values.map(String) : []));
  const types = branches.flat().flatMap((issue) => (issue.code === 'invalid_type' ? [typeName(issue.expected)] : []));
  const expected = [...new Set([...types, ...(words.length ? [`one of ${words.join(', ')}`] : [])])].join(' or ');
  const field = fieldName(path);
  if (typeof input === 'string' && words.length && !/^[\d.,\s%]+$/.test(input))
    return [
      {
        code: 'not-in-list',
        path,
        atKey: false,
        what: `${field} is ${quoted(input)}; it must be ${expected}.`,
        mend: `Choose one of them.${didYouMean(input, words)}`,
      },
    ];
  return [typeFault(path, field, input, expected, descriptionAt(schema, path))];
}

function unknownField(path: Path, key: string, input: unknown, schema: z.ZodType): Fault {
  const place = path.length ? `In ${fieldName(path)}, the` : 'The';
  const value = valueAt(input, [key]);
  const at = { path: [...path, key], atKey: true };
  if (value === null && /^\d+$/.test(key))
    return {
      ...at,
      code: 'number-with-comma',
      what: `${place} number ${key} stands as a field of its own: a comma inside { } ends a value.`,
      mend: 'Write numbers with a point and without thousands marks.',
    };
  const known = fieldsAt(schema, path);
  const mend =
    value === null && key.includes(' ')
      ? 'Remove it; put text that contains a comma into quotation marks.'
      : `Remove it.${didYouMean(key, known) || (known.length ? ` Fields here: ${known.join(', ')}.` : '')}`;
  return { ...at, code: 'unknown-field', what: `${place} field ${quoted(key)} is not known.`, mend };
}

function rangeSentence(issue: z.core.$ZodIssueTooBig | z.core.$ZodIssueTooSmall, field: string, input: unknown): string {
  const bound =
    issue.code === 'too_big'
      ? `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}`
      : `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}`;
  if (typeof input === 'number') return `${field} is ${input}; it must be ${bound}.`;
  const size = typeof input === 'string' ? input.trim().length : ((input as { length?: number }).length ?? 0);
  const unit = typeof input === 'string' ? 'characters' : 'entries';
  return size === 0 ? `${field} is empty.` : `${field} has ${size} ${unit}; it must have ${bound}.`;
}

/** A path as people read it: `"tree > entry 2 > share"`. */
const fieldName = (path: Path): string =>
  path.length === 0
    ? 'The file'
    : quoted(
        path
          .map((key) => (typeof key === 'number' ? `entry ${key + 1}` : key.length > 40 ? `${key.slice(0, 39)}…` : key))
          .slice(-4)
          .join(' > '),
      );

function valueAt(root: unknown, path: Path): unknown {
  let value = root;
  for (const key of path) {
    if (value === null || typeof value !== 'object' || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<string | number, unknown>)[key];
  }
  return value;
}
