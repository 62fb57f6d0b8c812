/** What a saved job is, and how it is written. Reading one needs its whole schema: `saved.ts`, fetched when there is something to read. */
import type { Job } from '../state/job.ts';

export const savedVersion = 1;
export const savedForm = 'lampwise-job';

export interface SavedJob {
  readonly form: typeof savedForm;
  readonly version: typeof savedVersion;
  /** Hash of the content that it was made with. */
  readonly content: string;
  readonly job: Job;
}

/** Characters of a file that are read; a long job has a few ten thousand. */
export const longestFile = 2_000_000;

export const saved = (job: Job, content: string): SavedJob => ({ form: savedForm, version: savedVersion, content, job });
export const exportText = (job: Job, content: string): string => `${JSON.stringify(saved(job, content), null, 2)}\n`;
