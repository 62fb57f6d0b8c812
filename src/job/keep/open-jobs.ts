/** Which kept jobs are still open, and how many of them: for the list on the first page. */
import type { Job } from '../state/job.ts';
import type { JobRecord } from './jobs.ts';

/** What a record says, read with no more trust than a list needs; null when it cannot be read. */
export function jobIn(record: JobRecord): Partial<Job> | null {
  try {
    return (JSON.parse(record.text) as { job?: Partial<Job> }).job ?? null;
  } catch {
    return null;
  }
}

/** Not ended, as far as it can be read. */
export const isOpen = (job: Partial<Job> | null): job is Partial<Job> => job !== null && job.timeline?.at(-1)?.kind !== 'ended';

/** Most open jobs that the first page lists. */
export const mostListed = 5;

/** Tells the first page how much room its list of open jobs will take, before it has read them. */
export function noteOpenJobs(open: number): void {
  const lines = String(Math.min(open, mostListed));
  try {
    if (open > 0) localStorage.setItem('open-jobs', lines);
    else localStorage.removeItem('open-jobs');
  } catch {
    // Storage refused: the list then moves what is below it.
  }
}
