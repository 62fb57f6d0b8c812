/** Undo and redo over whole jobs. */
import type { Job } from './job.ts';
import { type Action, reduce } from './reduce.ts';

export interface History {
  readonly past: readonly Job[];
  readonly present: Job;
  readonly future: readonly Job[];
  /** Consecutive changes of one field (typing) are one step back. Null: the next change is a step of its own. */
  readonly field: string | null;
}

/** Steps back that are kept. */
const longestPast = 200;

export const historyOf = (present: Job): History => ({ past: [], present, future: [], field: null });

/** Does an action. `field` names what is being typed, so that letters are not undone one by one. */
export function act(history: History, action: Action, field: string | null = null): History {
  const present = reduce(history.present, action);
  if (present === history.present) return history;
  const typing = field !== null && field === history.field && history.past.length > 0;
  return {
    past: typing ? history.past : [...history.past.slice(1 - longestPast), history.present],
    present,
    future: [],
    field,
  };
}

export function undo(history: History): History {
  const previous = history.past.at(-1);
  if (!previous) return history;
  return { past: history.past.slice(0, -1), present: previous, future: [history.present, ...history.future], field: null };
}

export function redo(history: History): History {
  const [next, ...future] = history.future;
  if (!next) return history;
  return { past: [...history.past, history.present], present: next, future, field: null };
}
