/** Names and figures that several parts of the page say. */

import type { CauseId } from '../../engine/belief/index.ts';
import type { Knowledge } from '../../engine/knowledge.ts';
import type { Driving } from '../card-types.ts';
import { own } from '../state/own.ts';
import type { Entry } from '../state.ts';
import { percent } from './figures.ts';

export const causeTitle = (id: CauseId, knowledge: Knowledge): string =>
  id === null ? 'None of these' : (own(knowledge.causes, id)?.title ?? id.replaceAll('-', ' '));

export const drivingTitles: Readonly<Record<Driving, string>> = {
  stop: 'Do not drive',
  'home-only': 'Home or to a garage, gently, then park it',
  gently: 'Drivable, gently; mend it soon',
  'as-usual': 'Drivable as usual',
};

/** "12 % → 31 %". */
export const change = (from: number, to: number): string => `${percent(from)} → ${percent(to)}`;

/** What an entry of the list of what was done says, in a line. */
export function entryText(entry: Entry, knowledge: Knowledge): { readonly title: string; readonly said: string } {
  const action = (id: string) =>
    own(knowledge.checks, id)?.title ?? own(knowledge.causes, id)?.repair.title ?? `${id.replaceAll('-', ' ')} (no longer in the content)`;
  const cause = (id: string | null) => (id === null ? 'Something that is not listed' : causeTitle(id, knowledge));
  switch (entry.kind) {
    case 'result': {
      const outcome = own(knowledge.checks, entry.check)?.outcomes.find(({ id }) => id === entry.outcome)?.title ?? entry.outcome;
      const reading = entry.reading === null ? '' : ` (${Number(entry.reading.toFixed(3))})`;
      return { title: action(entry.check), said: `${outcome}${reading}${entry.before ? ', done before' : ''}` };
    }
    case 'cannot':
      return { title: action(entry.action), said: 'cannot be done here' };
    case 'aside':
      return { title: action(entry.action), said: 'put aside for now' };
    case 'found':
      return { title: cause(entry.cause), said: 'found to be the cause' };
    case 'repair':
      return {
        title:
          entry.cause === null
            ? 'Repair of something that is not listed'
            : (own(knowledge.causes, entry.cause)?.repair.title ?? entry.cause),
        said: entry.outcome === 'gone' ? 'done, the fault is gone so far' : 'done, the fault is still there',
      };
    case 'returned':
      return { title: cause(entry.cause), said: 'repaired, but the code came back' };
    case 'ended':
      return {
        title: 'End of the job',
        said: { proven: 'the repair is proven', 'handed-over': 'handed to a professional', 'given-up': 'left as it is' }[entry.how],
      };
  }
}
