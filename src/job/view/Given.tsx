/** Figures that came from the bench: into which job? */
import type { Job } from '../state.ts';
import { useSession } from './context.ts';
import { plain } from './figures.ts';
import { trims } from './start/Numbers.tsx';
import { entryText } from './words.ts';

/** Other jobs that are offered besides the open one. */
const mostOthers = 4;

export function Given() {
  const session = useSession();
  const given = session.given.value;
  if (!given) return null;
  const { id, name, inputs } = session.job.value;
  const others = session.listings.value.filter((listing) => listing.id !== id).slice(0, mostOthers);
  return (
    <section class="panel given" aria-labelledby="given-head">
      <h2 id="given-head">From the bench: into which job?</h2>
      <p>{whatIsGiven(given, session.data.knowledge)}</p>
      <div class="button-row">
        <button type="button" class="main-button" onClick={() => void session.putGiven(id)}>
          Into this job{name || inputs.codes.length > 0 ? `: ${name || inputs.codes.join(' ')}` : ''}
        </button>
        {others.map((other) => (
          <button key={other.id} type="button" onClick={() => void session.putGiven(other.id)}>
            Into {other.name || 'a job without a name'}, {new Date(other.savedAt).toLocaleDateString()}
          </button>
        ))}
        <button type="button" onClick={() => void session.putGiven(null)}>
          Into a new job
        </button>
        <button
          type="button"
          onClick={() => {
            session.given.value = null;
          }}
        >
          Into none
        </button>
      </div>
    </section>
  );
}

function whatIsGiven({ inputs, timeline }: Job, knowledge: ReturnType<typeof useSession>['data']['knowledge']): string {
  const some = (values: object) => Object.keys(values).length > 0;
  return [
    ...inputs.codes,
    ...(inputs.firingOrder.length > 0 ? [`firing order ${inputs.firingOrder.join('-')}`] : []),
    ...trims.flatMap(([key, title]) => {
      const value = inputs.trims[key];
      return value === undefined ? [] : [`fuel trim, ${title.toLowerCase()}: ${plain(value)} %`];
    }),
    ...(some(inputs.freezeFrame) ? ['freeze frame'] : []),
    ...timeline.map((entry) => {
      const { title, said } = entryText(entry, knowledge);
      return `${title}: ${said}`;
    }),
  ].join('; ');
}
