/** A check as a card: cautions, access, steps, the reading, and what was found. */
import { useState } from 'preact/hooks';
import { belief } from '../../engine/belief/index.ts';
import type { CheckCard, OutcomeWords } from '../card-types.ts';
import { checkCard } from '../data.ts';
import { outcomeOfReading } from '../state/reading.ts';
import { toContentUnit, typedNumber, unitChoice, unitChoices } from '../state/units.ts';
import { Cautions } from './Cautions.tsx';
import { useSession } from './context.ts';
import { Figures } from './Figures.tsx';
import { percent } from './figures.ts';
import type { Shown } from './shown.ts';
import { useCard } from './use-card.ts';
import { causeTitle } from './words.ts';

export function CheckStep({ shown }: { readonly shown: Shown }) {
  const session = useSession();
  const { knowledge, shared } = session.data;
  const facts = knowledge.checks[shown.id]!;
  const fetched = useCard(shown.id, checkCard);
  const card = fetched.state === 'here' ? fetched.card : null;
  const setUps = (shown.proposal?.setUps ?? []).flatMap((id) => shared.setUps[id] ?? []);
  return (
    <>
      {card && <p class="step-asks">{card.asks}</p>}
      <Figures proposal={shown.proposal} settles={shown.settles} engine={card?.engine ?? null} skill={card?.skill ?? null} />
      {fetched.state === 'missing' && (
        <p role="alert">The steps of this check are not on this device yet. Go online once; its results can be given all the same.</p>
      )}
      {card && (
        <>
          <Cautions ids={card.cautions} shared={shared} />
          {setUps.map((setUp) => (
            <details class="access" key={setUp.title}>
              <summary>First: {setUp.title}</summary>
              <ol>
                {setUp.steps.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ol>
              {setUp.whileThere.length > 0 && <p>While you are in there: {setUp.whileThere.join(' ')}</p>}
            </details>
          ))}
          <h3>Steps</h3>
          <ol class="work-steps">
            {card.steps.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ol>
          <p>
            <b>What makes it lie:</b> {card.trap}
          </p>
          {card.sums.length > 0 && (
            <p class="sums">
              Work it out on the bench, and bring the result back here:{' '}
              {card.sums.map(({ title, href }) => (
                <a key={href} href={href}>
                  {title}
                </a>
              ))}
            </p>
          )}
        </>
      )}
      <Results id={shown.id} card={card} titles={facts.outcomes} />
    </>
  );
}

interface ResultsProps {
  readonly id: string;
  readonly card: CheckCard | null;
  readonly titles: readonly { readonly id: string; readonly title: string }[];
}

function Results({ id, card, titles }: ResultsProps) {
  const session = useSession();
  const [before, setBefore] = useState(false);
  const [typed, setTyped] = useState({ text: '', unit: '' });
  const choice = card?.reading ? unitChoice(card.reading.unit, typed.unit) : null;
  const number = typedNumber(typed.text);
  const reading = choice && number !== null ? toContentUnit(number, choice) : null;
  const derived = card && reading !== null ? outcomeOfReading(reading, card.outcomes) : null;
  const outcomes: readonly (Pick<OutcomeWords, 'id' | 'title'> & Partial<OutcomeWords>)[] = card?.outcomes ?? titles;
  const record = (outcome: string) => session.answer({ kind: 'result', check: id, outcome, reading, before });
  return (
    <section class="results" aria-labelledby="results-head">
      <h3 id="results-head">What did you find?</h3>
      {card?.reading && choice && (
        <div class="reading-entry">
          <label class="field">
            <span>
              {card.reading.what} <small>{card.reading.at}</small>
            </span>
            <input
              type="text"
              inputMode="decimal"
              autocomplete="off"
              value={typed.text}
              onInput={(event) => setTyped({ ...typed, text: event.currentTarget.value })}
            />
          </label>
          {unitChoices(card.reading.unit).length > 1 ? (
            <label class="field">
              <span>Unit</span>
              <select value={choice.unit} onChange={(event) => setTyped({ ...typed, unit: event.currentTarget.value })}>
                {unitChoices(card.reading.unit).map(({ unit }) => (
                  <option key={unit}>{unit}</option>
                ))}
              </select>
            </label>
          ) : (
            <span class="reading-unit">{choice.unit}</span>
          )}
          <p role="status">
            {typed.text.trim() === ''
              ? 'Type the number; the result follows from the limits.'
              : number === null
                ? 'This is no number.'
                : derived
                  ? `That is: ${derived.title}`
                  : 'No limit here fits this number: pick the result yourself.'}
          </p>
          {card.reading.maker && <p class="quiet">Only the service information of the vehicle can say: {card.reading.maker}</p>}
          <p class="quiet">Limits from: {card.reading.source}.</p>
        </div>
      )}
      <ul class="outcome-buttons">
        {outcomes.map((outcome) => (
          <li key={outcome.id}>
            <button
              type="button"
              data-outcome={outcome.id}
              class={derived?.id === outcome.id ? 'derived' : ''}
              onClick={() => record(outcome.id)}
            >
              <b>{outcome.title}</b>
              {outcome.limits && <span class="outcome-limits">{outcome.limits}</span>}
              {derived?.id === outcome.id && <span class="derived-mark">by your reading</span>}
              {outcome.means && <small>{outcome.means}</small>}
            </button>
          </li>
        ))}
      </ul>
      <label class="choice">
        <input type="checkbox" checked={before} onChange={(event) => setBefore(event.currentTarget.checked)} />
        <span>Already done before this job: nothing to pay, only to tell</span>
      </label>
      <Consequences id={id} outcomes={outcomes} />
    </section>
  );
}

/** How each result would move the likeliest causes. Reckoned only when it is opened. */
function Consequences({
  id,
  outcomes,
}: {
  readonly id: string;
  readonly outcomes: readonly { readonly id: string; readonly title: string }[];
}) {
  const session = useSession();
  const [open, setOpen] = useState(false);
  const { knowledge } = session.data;
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What each result would say</summary>
      {open && (
        <ul>
          {outcomes.map((outcome) => {
            const situation = session.situation.value;
            const after = belief({ ...situation, results: [...(situation.results ?? []), { check: id, outcome: outcome.id }] }, knowledge);
            return (
              <li key={outcome.id}>
                <b>{outcome.title}:</b>{' '}
                {after.causes
                  .slice(0, 3)
                  .map((cause) => `${causeTitle(cause.id, knowledge)} ${percent(cause.probability)}`)
                  .join(', ')}
              </li>
            );
          })}
        </ul>
      )}
    </details>
  );
}
