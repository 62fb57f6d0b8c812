/** Finds every reference in a validated file by walking its schema: a field that refers says so in its metadata. */
import type { z } from 'zod';
import type { Path } from './document.ts';

export interface Reference {
  readonly path: Path;
  /** The id is the key at the end of the path, not its value. */
  readonly isKey: boolean;
  /** Folder in which the id must be a file. */
  readonly kind: string;
  readonly id: string;
}

interface Definition {
  type: string;
  shape?: Record<string, z.ZodType>;
  element?: z.ZodType;
  keyType?: z.ZodType;
  valueType?: z.ZodType;
  options?: z.ZodType[];
  innerType?: z.ZodType;
}

/** Metadata of a schema is put together at every question, and each schema is asked thousands of times. */
const knownKinds = new WeakMap<z.ZodType, string | null>();
function kindOf(schema: z.ZodType): string | null {
  let kind = knownKinds.get(schema);
  if (kind === undefined) {
    kind = (schema.meta() as { reference?: string } | undefined)?.reference ?? null;
    knownKinds.set(schema, kind);
  }
  return kind;
}
/** A source is written as its id, then a space and the place in it. */
const idPart = (text: string): string => text.split(' ', 1)[0] ?? text;

/** Several rules ask for the references of the same files; a file is walked once. */
const known = new WeakMap<object, { readonly schema: z.ZodType; readonly found: readonly Reference[] }>();

/** All references of `file`, which must already have passed `schema` and is not changed after. */
export function referencesIn(schema: z.ZodType, file: object): readonly Reference[] {
  const before = known.get(file);
  if (before?.schema === schema) return before.found;
  const found = referencesBelow(schema, file, []);
  known.set(file, { schema, found });
  return found;
}

function referencesBelow(schema: z.ZodType, value: unknown, path: Path): Reference[] {
  if (value === undefined || value === null) return [];
  const kind = kindOf(schema);
  if (kind && typeof value === 'string') return [{ path, isKey: false, kind, id: idPart(value) }];
  const definition = schema._zod.def as unknown as Definition;
  switch (definition.type) {
    case 'object':
      return Object.entries(definition.shape ?? {}).flatMap(([key, inner]) =>
        referencesBelow(inner, (value as Record<string, unknown>)[key], [...path, key]),
      );
    case 'array':
      return (value as unknown[]).flatMap((item, index) => referencesBelow(definition.element!, item, [...path, index]));
    case 'record': {
      const keyKind = kindOf(definition.keyType!);
      return Object.entries(value as Record<string, unknown>).flatMap(([key, item]) => [
        ...(keyKind ? [{ path: [...path, key], isKey: true, kind: keyKind, id: key }] : []),
        ...referencesBelow(definition.valueType!, item, [...path, key]),
      ]);
    }
    case 'union': {
      const option = definition.options!.find((candidate) => candidate.safeParse(value).success);
      return option ? referencesBelow(option, value, path) : [];
    }
    case 'optional':
    case 'default':
    case 'nullable':
    case 'readonly':
    case 'prefault':
      return referencesBelow(definition.innerType!, value, path);
    default:
      return [];
  }
}
