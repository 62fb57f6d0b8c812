/** The next step as one large card, why it comes now, and the answers that are no result. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { CheckStep } from './CheckStep.tsx';
import { useSession } from './context.ts';
import { FoundElse } from './FoundElse.tsx';
import { duration, money, percent } from './figures.ts';
import { Repair } from './Repair.tsx';
import { type Shown, shownStep } from './shown.ts';
import { reasonText } from './why.ts';
import { causeTitle, change } from './words.ts';

export function NextStep() {
  const session = useSession();
  const [picked, setPicked] = useState<string | null>(null);
  const shown = shownStep(session, picked);
  const head = useRef<HTMLHeadingElement>(null);
  const answers = session.job.value.timeline.length;
  const lastAnswers = useRef(answers);
  const key = shown ? `${shown.kind} ${shown.id}` : '';
  // After an answer the new step is what comes next for eyes and screen readers alike.
  useEffect(() => {
    if (answers === lastAnswers.current || !shown) return;
    lastAnswers.current = answers;
    setPicked(null);
    head.current?.focus({ preventScroll: true });
    head.current?.scrollIntoView({ block: 'start' });
  }, [answers, key, shown]);
  const { knowledge } = session.data;
  if (session.planner.failure.value)
    return (
      <section class="panel">
        <h2>The order could not be computed</h2>
        <p role="alert">{session.planner.failure.value}</p>
      </section>
    );
  if (!shown)
    return (
      <section class="panel" aria-busy="true">
        <h2>Reckoning the order of checks…</h2>
      </section>
    );
  const title =
    shown.kind === 'check'
      ? knowledge.checks[shown.id]!.title
      : shown.kind === 'repair'
        ? knowledge.causes[shown.id]!.repair.title
        : 'Hand the car to a professional';
  return (
    <section class="panel step-card" aria-labelledby="step-head" aria-busy={!session.planner.upToDate.value} data-step={key}>
      <p class="sheet-kind">{shown.kind === 'check' ? 'Next check' : shown.kind === 'repair' ? 'Worth trying now' : 'Stop here'}</p>
      <h2 id="step-head" ref={head} tabIndex={-1}>
        {title}
      </h2>
      <Why shown={shown} />
      <Better />
      <Likeliest />
      {shown.kind === 'check' && <CheckStep key={shown.id} shown={shown} />}
      {shown.kind === 'repair' && <Repair key={shown.id} cause={shown.id} proposal={shown.proposal} settles={shown.settles} />}
      {shown.kind === 'hand-over' && <HandOver shown={shown} />}
      <div class="other-answers">
        {shown.kind !== 'hand-over' && (
          <>
            <button type="button" onClick={() => session.answer({ kind: 'cannot', action: shown.id })}>
              I can’t do this here
            </button>
            <button type="button" onClick={() => session.answer({ kind: 'aside', action: shown.id })}>
              Put it aside for now
            </button>
          </>
        )}
        <FoundElse />
      </div>
      <Others shown={shown} pick={setPicked} />
    </section>
  );
}

function Why({ shown }: { readonly shown: Shown }) {
  const { outlook } = useSession().planner;
  const now = outlook.value;
  const first = now?.steps[0];
  if (!now || !first || first.id !== shown.id || !now.reasons[0]) return null;
  return (
    <>
      <p class="why">{reasonText(now.reasons[0], now.steps[1]?.title ?? null).join(' ')}</p>
      <p class="quiet">
        The whole job from here is expected to cost {money(now.expectedCost)}, your time included; no order can bring it under{' '}
        {money(now.leastCost)}.
      </p>
    </>
  );
}

/** On a narrow screen the table of causes is far below; the first of them stands here too. */
function Likeliest() {
  const session = useSession();
  const top = session.belief.value.causes[0];
  const before = session.before.value?.causes.find(({ id }) => id === top?.id);
  return top ? (
    <p class="likeliest">
      Likeliest: {causeTitle(top.id, session.data.knowledge)}{' '}
      <b>{before ? change(before.probability, top.probability) : percent(top.probability)}</b>
    </p>
  ) : null;
}

function Better() {
  const { data, planner } = useSession();
  const better = planner.better.value;
  const now = planner.outlook.value;
  if (!better || !now) return null;
  const { kind, id } = better.first;
  const title =
    kind === 'check' ? data.knowledge.checks[id]!.title : kind === 'repair' ? data.knowledge.causes[id]!.repair.title : 'handing over';
  return (
    <p class="moved" role="status">
      A longer look would begin with “{title}”: about {money(now.expectedCost - better.expectedCost)} less over the whole job.{' '}
      <button type="button" onClick={() => planner.takeBetter()}>
        Show that step
      </button>
    </p>
  );
}

function HandOver({ shown }: { readonly shown: Shown }) {
  const session = useSession();
  return (
    <>
      <p>
        From here on a professional costs less than any further check or repair is expected to
        {shown.proposal && `: about ${money(shown.proposal.money)}`}. Print the job sheet or export the job and give it along: what is ruled
        out need not be paid for again.
      </p>
      <button type="button" class="main-button" onClick={() => session.answer({ kind: 'ended', how: 'handed-over' })}>
        Handed over: end the job
      </button>
    </>
  );
}

/** Alternatives with what deviating costs. */
function Others({ shown, pick }: { readonly shown: Shown; readonly pick: (key: string | null) => void }) {
  const session = useSession();
  const others = session.planner.proposals.value.filter(({ kind, id }) => kind !== shown.kind || id !== shown.id);
  if (others.length === 0) return null;
  return (
    <details class="others">
      <summary>Rather do something else?</summary>
      <div class="ledger">
        <table>
          <thead>
            <tr>
              <th scope="col">Instead</th>
              <th scope="col">Takes</th>
              <th scope="col">Costs</th>
              <th scope="col">Adds to the whole job</th>
            </tr>
          </thead>
          <tbody>
            {others.map((other) => (
              <tr key={`${other.kind} ${other.id}`}>
                <th scope="row">
                  <button type="button" class="link-button" onClick={() => pick(`${other.kind} ${other.id}`)}>
                    {other.title}
                  </button>
                </th>
                <td data-head="Takes">{duration(other.attendedMinutes)}</td>
                <td data-head="Costs">{money(other.money)}</td>
                <td data-head="Adds to the whole job">{other.deviation < 0.5 ? 'nothing' : `about ${money(other.deviation)}`}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
