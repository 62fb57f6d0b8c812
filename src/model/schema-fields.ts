/** Reading a schema by path: which fields it takes there and how it describes them. */
import type { z } from 'zod';
import type { Path } from './document.ts';

interface Definition {
  readonly type: string;
  readonly shape?: Record<string, z.ZodType>;
  readonly element?: z.ZodType;
  readonly valueType?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly innerType?: z.ZodType;
}

const definition = (schema: z.ZodType): Definition => schema._zod.def as unknown as Definition;

/** The schemas that a value may have once unions and wrappers are opened. */
function opened(schema: z.ZodType): readonly z.ZodType[] {
  const { options, innerType } = definition(schema);
  if (options) return options.flatMap(opened);
  return innerType ? opened(innerType) : [schema];
}

/** The schemas of the value at `path`; none when no value may stand there. */
function schemasAt(schema: z.ZodType, path: Path): readonly z.ZodType[] {
  const [key, ...rest] = path;
  if (key === undefined) return [schema];
  return opened(schema).flatMap((option) => {
    const { shape, element, valueType } = definition(option);
    const inner = shape ? (Object.hasOwn(shape, key) ? shape[key] : undefined) : typeof key === 'number' ? element : valueType;
    return inner ? schemasAt(inner, rest) : [];
  });
}

/** Names of the fields that a map at `path` may have, without those of free maps. */
export const fieldsAt = (schema: z.ZodType, path: Path): readonly string[] => [
  ...new Set(
    schemasAt(schema, path)
      .flatMap(opened)
      .flatMap((option) => Object.keys(definition(option).shape ?? {})),
  ),
];

/** What the schema says about the field at `path`, or null. */
export function descriptionAt(schema: z.ZodType, path: Path): string | null {
  for (const candidate of schemasAt(schema, path)) {
    const description = candidate.description ?? opened(candidate)[0]?.description;
    if (description) return description;
  }
  return null;
}
