/** What was done, in order: every old answer can be changed or taken out. */

import { own } from '../state/own.ts';
import { spoiledAnswers } from '../state/spoiled.ts';
import type { Answer, Entry } from '../state.ts';
import { useSession } from './context.ts';
import { entryText } from './words.ts';

export function Done() {
  const session = useSession();
  const { timeline } = session.job.value;
  const { past, future } = session.history.value;
  const spoiled = spoiledAnswers(timeline, session.data.knowledge);
  return (
    <section class="panel done" aria-labelledby="done-head">
      <h2 id="done-head">What was done</h2>
      <p class="button-row">
        <button type="button" disabled={past.length === 0} onClick={() => session.undo()}>
          Undo
        </button>
        <button type="button" disabled={future.length === 0} onClick={() => session.redo()}>
          Redo
        </button>
      </p>
      {timeline.length === 0 ? (
        <p class="quiet">Nothing yet.</p>
      ) : (
        <ol>
          {timeline.map((entry) => (
            <Line key={entry.id} entry={entry} spoiledBy={timeline.find(({ id }) => id === spoiled.get(entry.id)) ?? null} />
          ))}
        </ol>
      )}
    </section>
  );
}

function Line({ entry, spoiledBy }: { readonly entry: Entry; readonly spoiledBy: Entry | null }) {
  const session = useSession();
  const { knowledge } = session.data;
  const { title, said } = entryText(entry, knowledge);
  const choices = choicesOf(entry, knowledge);
  const { id, at, note, ...answer } = entry;
  const key = JSON.stringify(answer);
  return (
    <li>
      <p>
        <b>{title}</b>: {said}
        {note && <small class="line">{note}</small>}
        {spoiledBy && (
          <small class="line spoiled">
            Before “{entryText(spoiledBy, knowledge).title}”, which may have changed what it reads: it can be done again.
          </small>
        )}
        {at > 0 && <small class="line">{new Date(at).toLocaleString()}</small>}
      </p>
      <details>
        <summary>
          Change<span class="unseen"> the answer to {title}</span>
        </summary>
        {choices.length > 1 && (
          <label class="field">
            <span>Answer</span>
            <select
              value={key}
              onChange={(event) => session.do({ type: 'revise', id, answer: JSON.parse(event.currentTarget.value) as Answer })}
            >
              {choices.map((choice) => (
                <option key={choice.said} value={JSON.stringify(choice.answer)}>
                  {choice.said}
                </option>
              ))}
            </select>
          </label>
        )}
        <button type="button" onClick={() => session.do({ type: 'remove', id })}>
          {entry.kind === 'aside' ? 'Take it up again' : 'Take this answer out'}
        </button>
      </details>
    </li>
  );
}

/** Answers that the entry could be changed to; the present one among them. */
function choicesOf(
  entry: Entry,
  knowledge: ReturnType<typeof useSession>['data']['knowledge'],
): readonly { said: string; answer: Answer }[] {
  const { id, at, note, ...present } = entry;
  if (present.kind === 'result') {
    const outcomes = own(knowledge.checks, present.check)?.outcomes ?? [];
    return outcomes.map((outcome) => ({
      said: outcome.title,
      answer: outcome.id === present.outcome ? present : { ...present, outcome: outcome.id, reading: null },
    }));
  }
  if (present.kind === 'repair')
    return (['gone', 'still-there'] as const).map((outcome) => ({
      said: outcome === 'gone' ? 'the fault is gone so far' : 'the fault is still there',
      answer: { ...present, outcome },
    }));
  return [];
}
