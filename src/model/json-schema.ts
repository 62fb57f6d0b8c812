/** JSON Schemas of content files, for editors: completion, hover help and a first check while typing. */
import { z } from 'zod';
import { type Kind, schemas } from './schema/index.ts';

/** JSON as `JSON.stringify` writes it. */
export type JsonObject = { readonly [key: string]: unknown };

/**
 * The schema of one kind as JSON Schema draft-07, which YAML editors understand. Says less than the zod schema: what only
 * code can check (sums, order of limits, references) is left to `npm run check`.
 */
export function jsonSchema(kind: Kind): JsonObject {
  const schema = z.toJSONSchema(schemas[kind], {
    target: 'draft-7',
    io: 'input',
    override: ({ jsonSchema: node }) => {
      // Where an id leads is said in the description; a keyword of our own would only trip strict validators.
      delete (node as { reference?: unknown }).reference;
    },
  });
  return { ...schema, title: `content/${kind}/` } as JsonObject;
}

/** Settings of an editor that map each folder of content to its schema. Paths from the top of the project. */
export const editorSchemas = (schemaPath: (kind: Kind) => string): JsonObject =>
  Object.fromEntries((Object.keys(schemas) as Kind[]).map((kind) => [`./${schemaPath(kind)}`, `content/${kind}/*.yaml`]));
