/** Every text of a file that people read, with its path. Ids, places in sources and words of lists are left out. */
import type { Path } from '../document.ts';

const notProse = new Set([
  'source',
  'needs',
  'appliesTo',
  'likelihood',
  'otherwise',
  'evidence',
  'also',
  'unit',
  'symbols',
  'kind',
  'signal',
]);

export function textsOf(value: unknown, path: Path = []): readonly { readonly path: Path; readonly text: string }[] {
  if (typeof value === 'string') return value.includes(' ') ? [{ path, text: value }] : [];
  if (Array.isArray(value)) return value.flatMap((item, index) => textsOf(item, [...path, index]));
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, item]) => (notProse.has(key) ? [] : textsOf(item, [...path, key])));
}
