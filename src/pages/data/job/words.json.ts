import { jobWords } from '../../../compile/job-words.ts';
import type { JobWords } from '../../../job/card-types.ts';
import { content, knowledge } from '../../../site.ts';

/** Questions of the job page and words of its proof. */
export const GET = () => Response.json(jobWords(content, knowledge.hash) satisfies JobWords);
