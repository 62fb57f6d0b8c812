/** Numbers of content files that differ between two states, with the sources that they name. */
import { parseDocument } from 'yaml';
import type { ContentFile } from '../../src/model/problem.ts';
import { verbalScale } from '../../src/model/schema/scalars.ts';

export interface ChangedNumber {
  readonly file: string;
  /** `likelihood.worn-plugs.wide` */
  readonly place: string;
  /** As written; null where the number is new or gone. */
  readonly before: string | null;
  readonly after: string | null;
  /** The nearest source at or above the number, in the later state (the earlier, where the number is gone). */
  readonly source: string;
}

interface Figure {
  readonly written: string;
  readonly source: string;
}

/** Changes of the files that both states have, by file and place. */
export function changedNumbers(before: readonly ContentFile[], after: readonly ContentFile[]): readonly ChangedNumber[] {
  const earlier = new Map(before.map((file) => [file.path, file.text]));
  return after.flatMap(({ path, text }) => {
    const old = earlier.get(path);
    if (old === undefined || old === text) return [];
    const from = figuresOf(old);
    const to = figuresOf(text);
    return [...new Set([...from.keys(), ...to.keys()])].sort().flatMap((place) => {
      const [was, is] = [from.get(place), to.get(place)];
      if (was?.written === is?.written) return [];
      return [{ file: path, place, before: was?.written ?? null, after: is?.written ?? null, source: (is ?? was)!.source }];
    });
  });
}

function figuresOf(text: string): ReadonlyMap<string, Figure> {
  const found = new Map<string, Figure>();
  const visit = (value: unknown, place: readonly string[], source: string) => {
    if (typeof value === 'number' || (typeof value === 'string' && Object.hasOwn(verbalScale, value)))
      found.set(place.join('.'), { written: String(value), source });
    if (value === null || typeof value !== 'object') return;
    const own = (value as { source?: unknown }).source;
    for (const [key, inner] of Object.entries(value)) visit(inner, [...place, nameOf(key, inner)], typeof own === 'string' ? own : source);
  };
  visit(parseDocument(text).toJS(), [], '');
  return found;
}

/** Entries of a list go by their id, cause, part or title, so that a new entry in the middle does not rename those after it. */
function nameOf(key: string, inner: unknown): string {
  if (!/^\d+$/.test(key) || inner === null || typeof inner !== 'object') return key;
  const { id, cause, part, title, what } = inner as Record<string, unknown>;
  const name = id ?? cause ?? part ?? title ?? what;
  return typeof name === 'string' ? name : key;
}
