import { sharedCards } from '../../../compile/job-cards.ts';
import type { SharedCards } from '../../../job/card-types.ts';
import { catalogue } from '../../../site.ts';

/** Cautions and set-ups that the cards refer to. */
export const GET = () => Response.json(sharedCards(catalogue) satisfies SharedCards);
