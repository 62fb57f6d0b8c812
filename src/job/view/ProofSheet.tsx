/** After the repair: clear, relearn, drive what the monitors need, and wait long enough. */

import { useState } from 'preact/hooks';
import { chanceRepairWasRight, inspect, monitorStatus, unsetMonitors, unsetMonitorsAllowed } from '../../engine/proof/index.ts';
import { readReply } from '../../engine/reply.ts';
import type { RepairCard } from '../card-types.ts';
import { repairCard } from '../data.ts';
import type { Session } from '../session.ts';
import { confirmedProbability } from '../state.ts';
import { useSession } from './context.ts';
import { Tick } from './Driving.tsx';
import { ReturnClock } from './ReturnClock.tsx';
import { useCard } from './use-card.ts';

/** Belief that the repair was right. A cause that was seen counts as confirmed, whatever the reckoning said before. */
export function beliefInRepair(session: Session, cause: string | null): number {
  const { timeline } = session.job.value;
  const { knowledge } = session.data;
  const seen = timeline.some((entry) => entry.kind === 'found' && entry.cause === cause);
  const holds = cause === null ? confirmedProbability : (knowledge.causes[cause]?.repair.holds ?? confirmedProbability);
  const reckoned = cause === null ? 0 : chanceRepairWasRight(session.belief.value, cause, knowledge);
  return Math.max(reckoned, seen ? confirmedProbability * holds : 0, 0.05);
}

export function ProofSheet({ cause }: { readonly cause: string | null }) {
  const session = useSession();
  const { proof, inputs } = session.job.value;
  const right = beliefInRepair(session, cause);
  const monitors = monitorsOf(session);
  const done = (line: string) => proof.ticked.includes(line);
  const tick = (line: string) => (on: boolean) => session.do({ type: 'tick', line, on });
  return (
    <section class="panel proof" aria-labelledby="proof-head" data-step="proof">
      <p class="sheet-kind">Proof of the repair</p>
      <h2 id="proof-head">Is it really fixed?</h2>
      <h3>Clear and learn</h3>
      <div class="choices choices-long">
        <Tick
          label="Write down codes and freeze frame, then clear the codes with a scan tool"
          hint="Clearing sets every monitor back. Unplugging the battery does the same, loses settings, and erases no permanent code."
          on={done('clear')}
          set={tick('clear')}
        />
        {cause !== null && <RepairLines cause={cause} done={done} tick={tick} />}
      </div>
      <h3>Drive</h3>
      {monitors.length === 0 && <p>No readiness monitor is named for these codes. Drive as you usually do when the lamp comes.</p>}
      {monitors.map((monitor) => (
        <div class="monitor" key={monitor.id}>
          <Tick
            label={`${monitor.title}${monitor.continuous ? ' (watches all the time)' : ''}: has run and passed`}
            hint={`About ${monitor.minutes} minutes of driving.`}
            on={done(`monitor:${monitor.id}`)}
            set={tick(`monitor:${monitor.id}`)}
          />
          <details>
            <summary>The drive that lets it run</summary>
            {monitor.before.length > 0 && <p>Before: {monitor.before.join(' ')}</p>}
            <ol>
              {monitor.drive.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ol>
          </details>
        </div>
      ))}
      <h3>How long is long enough?</h3>
      <ReturnClock proof={proof} right={right} set={(change) => session.do({ type: 'proof', change }, 'proof')} />
      <Inspection modelYear={inputs.modelYear} />
      <LampWords />
      <div class="button-row">
        <button type="button" class="main-button" onClick={() => session.answer({ kind: 'ended', how: 'proven' })}>
          It is proven: end the job
        </button>
        <button type="button" onClick={() => session.answer({ kind: 'returned', cause })}>
          The code came back
        </button>
      </div>
    </section>
  );
}

function RepairLines(props: {
  readonly cause: string;
  readonly done: (line: string) => boolean;
  readonly tick: (line: string) => (on: boolean) => void;
}) {
  const fetched = useCard<RepairCard>(props.cause, repairCard);
  if (fetched.state !== 'here') return null;
  return (
    <>
      {fetched.card.relearn.map((line, index) => (
        <Tick key={line} label={line} on={props.done(`relearn:${index}`)} set={props.tick(`relearn:${index}`)} />
      ))}
      {fetched.card.closeUp.map((line, index) => (
        <Tick key={line} label={line} on={props.done(`close-up:${index}`)} set={props.tick(`close-up:${index}`)} />
      ))}
    </>
  );
}

/** Monitors that judge the families of the codes; without codes, of the likeliest cause. */
function monitorsOf(session: Session) {
  const { words, knowledge } = session.data;
  const named = session.belief.value.families;
  const top = session.belief.value.causes[0]?.id;
  const families =
    named.length > 0 ? named : Object.keys(knowledge.families).filter((id) => top && knowledge.families[id]!.shares[top] !== undefined);
  return [...new Set(families.flatMap((id) => words.families[id]?.monitors ?? []))].flatMap((id) => words.monitors[id] ?? []);
}

export function Inspection({ modelYear }: { readonly modelYear: number | null }) {
  const [text, setText] = useState('');
  const bytes = readReply(text).monitorBytes;
  const status = bytes ? monitorStatus(bytes) : null;
  const allowed = modelYear === null ? null : unsetMonitorsAllowed(modelYear);
  const finding =
    status && modelYear !== null
      ? inspect({ modelYear, lampCommandedOn: status.lampCommandedOn, lampWorks: true, unsetMonitors: unsetMonitors(status).length })
      : null;
  return (
    <details class="inspection">
      <summary>
        <h3>Ready for an inspection?</h3>
      </summary>
      <p>
        {allowed === null
          ? 'Cars of 1996 to 2000 may have two monitors unset, from 2001 one.'
          : `A car of ${modelYear} may have ${allowed === 1 ? 'one monitor' : `${allowed} monitors`} unset.`}{' '}
        Federal minimum of the United States, 40 CFR 85.2222(c)(2); your state may be stricter.
      </p>
      <label class="field">
        <span>Reply to service 01 PID 01, if you have it</span>
        <input
          type="text"
          spellcheck={false}
          value={text}
          placeholder="41 01 00 07 65 04"
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <div role="status">
        {status && (
          <>
            <ul>
              {status.monitors
                .filter(({ state }) => state !== 'not-fitted')
                .map(({ bit, title, state }) => (
                  <li key={bit}>
                    {title}: {state === 'complete' ? 'has run' : 'has not run yet'}
                  </li>
                ))}
            </ul>
            <p>
              <b>
                {finding
                  ? {
                      pass: 'Would pass.',
                      fail: 'Would fail.',
                      'come-again': 'Would be sent away as not ready.',
                      'not-inspected': 'Not inspected this way.',
                    }[finding.verdict]
                  : 'Give the model year to know more.'}
              </b>{' '}
              {finding?.reason} {finding && <span class="quiet">{finding.source}</span>}
            </p>
          </>
        )}
      </div>
    </details>
  );
}

/** The rest stands on the page about proof, which is on the device too. */
const LampWords = () => (
  <p>
    A permanent code is erased only by the car itself, once its monitor has run and passed after clearing; no tool and no battery clamp does
    it. <a href="/proof/">When the lamp and its codes go</a>
  </p>
);
