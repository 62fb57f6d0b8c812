/** Where a job stands: which of its parts comes next. */
import type { Belief } from '../../engine/belief/index.ts';
import type { Entry, Job } from './job.ts';

/** A cause at least this likely is taken as confirmed: its repair is next. */
export const confirmedProbability = 0.9;

export type Stage =
  /** Find the cause. */
  | { readonly name: 'search' }
  /** The cause is known: mend it. Null: something that is not listed. */
  | { readonly name: 'repair'; readonly cause: string | null; readonly why: 'found' | 'probability' }
  /** Mended: prove it. */
  | { readonly name: 'proof'; readonly cause: string | null }
  | { readonly name: 'ended'; readonly how: 'proven' | 'handed-over' | 'given-up' };

const decides = (entry: Entry): boolean => ['found', 'repair', 'returned', 'ended'].includes(entry.kind);

/** The last deciding answer counts; without one, or after a failure, the belief does. */
export function stageOf(job: Job, belief: Belief | null): Stage {
  const last = job.timeline.findLast(decides);
  if (last?.kind === 'ended') return { name: 'ended', how: last.how };
  if (last?.kind === 'repair' && last.outcome === 'gone') return { name: 'proof', cause: last.cause };
  if (last?.kind === 'found') return { name: 'repair', cause: last.cause, why: 'found' };
  const top = belief?.causes[0];
  if (top && top.id !== null && top.probability >= confirmedProbability) return { name: 'repair', cause: top.id, why: 'probability' };
  return { name: 'search' };
}
