import { quickIndex } from '../../compile/quick-index.ts';
import { catalogue } from '../../site.ts';

/** What the search field answers from at once. */
export const GET = () => Response.json(quickIndex(catalogue));
