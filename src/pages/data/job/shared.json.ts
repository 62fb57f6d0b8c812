import { sharedCards } from '../../../compile/job-cards.ts';
import { catalogue } from '../../../site.ts';

/** Cautions and set-ups that the cards refer to. */
export const GET = () => Response.json(sharedCards(catalogue));
