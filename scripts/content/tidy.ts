/** Keeps YAML as people wrote it, and takes away only what nobody means to write. */
import { isDeepStrictEqual } from 'node:util';
import { parseDocument } from 'yaml';

/**
 * The text without byte-order mark, carriage returns, spaces at the ends of lines, runs of blank lines and blank lines at
 * either end; with one line feed last. Comments, quotes, folding and order stay. Where one of these steps would change a
 * value (spaces within a literal block or a quoted text), that step is left out. Idempotent; text that is no YAML keeps
 * everything but its line ends.
 */
export function tidy(text: string): string {
  const plain = text.replace(/^\uFEFF/, '').replaceAll(/\r\n?/g, '\n');
  const value = meaningOf(plain);
  if (value === invalid) return plain;
  const steps: ((text: string) => string)[] = [
    (before) => before.replaceAll(/[ \t]+$/gm, ''),
    (before) => before.replaceAll(/\n{3,}/g, '\n\n'),
    (before) => `${before.replace(/^\n+/, '').replace(/\n+$/, '')}\n`,
  ];
  return steps.reduce((before, step) => {
    const after = step(before);
    return isDeepStrictEqual(meaningOf(after), value) ? after : before;
  }, plain);
}

const invalid = Symbol('not YAML');

function meaningOf(text: string): unknown {
  const document = parseDocument(text, { prettyErrors: false });
  if (document.errors.length > 0) return invalid;
  try {
    return document.toJS({ maxAliasCount: 0 });
  } catch {
    return invalid;
  }
}
