import { savedSchema } from '../../../job/saved/schema.ts';

/** JSON Schema of an exported job. */
export const GET = () => Response.json(savedSchema);
