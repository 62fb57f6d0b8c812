import { knowledge } from '../../../site.ts';

/** The engine's knowledge as the job page reads it. */
export const GET = () => Response.json(knowledge);
