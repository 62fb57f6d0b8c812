/** The whole job page: may I drive, what is known, the next step, what it moved, what was done, the keeping. */
import { useEffect } from 'preact/hooks';
import type { Session } from '../session.ts';
import { own } from '../state/own.ts';
import { Bars } from './Bars.tsx';
import { Curve } from './Curve.tsx';
import { SessionContext, useSession } from './context.ts';
import { Done } from './Done.tsx';
import { DrivingPanel } from './Driving.tsx';
import { Ended } from './Ended.tsx';
import { KeepBar } from './KeepBar.tsx';
import { Later } from './Later.tsx';
import { NextStep } from './NextStep.tsx';
import { ownFigures } from './own-figures.ts';
import { PaperSheet } from './PaperSheet.tsx';
import { Repair } from './Repair.tsx';
import { Start } from './start/Start.tsx';
import { causeTitle } from './words.ts';

export function JobPage({ session }: { readonly session: Session }) {
  useEffect(() => {
    const keys = (event: KeyboardEvent) => {
      const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
      if (typing || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
      event.preventDefault();
      if (event.shiftKey) session.redo();
      else session.undo();
    };
    addEventListener('keydown', keys);
    return () => removeEventListener('keydown', keys);
  }, [session]);
  const { name, inputs } = session.job.value;
  const title = name || inputs.codes.join(' ') || 'My job';
  useEffect(() => {
    document.title = `${title} · Lampwise`;
  }, [title]);
  return (
    <SessionContext.Provider value={session}>
      <div class="job-screen">
        <Notice />
        {session.given.value && <Later load={loadGiven} props={{}} />}
        <div class="job-columns">
          <div class="job-main">
            <DrivingPanel />
            <Start />
            <Now />
          </div>
          <div class="job-side">
            <Bars />
            <Done />
            <Curve />
            <KeepBar />
          </div>
        </div>
      </div>
      <PaperSheet />
    </SessionContext.Provider>
  );
}

function Notice() {
  const session = useSession();
  const text = session.notice.value;
  return (
    <div role="alert">
      {text && (
        <p class="notice">
          {text}{' '}
          <button
            type="button"
            onClick={() => {
              session.notice.value = null;
            }}
          >
            Close
          </button>
        </p>
      )}
    </div>
  );
}

function Now() {
  const session = useSession();
  const stage = session.stage.value;
  switch (stage.name) {
    case 'search':
      return <NextStep />;
    case 'proof':
      return <Later load={loadProof} props={{ cause: stage.cause }} waiting={<section class="panel" aria-busy="true" data-step="" />} />;
    case 'ended':
      return <Ended how={stage.how} />;
    case 'repair':
      return <Confirmed cause={stage.cause} why={stage.why} />;
  }
}

const loadProof = () => import('./ProofSheet.tsx').then(({ ProofSheet }) => ProofSheet);
const loadGiven = () => import('./Given.tsx').then(({ Given }) => Given);

function Confirmed({ cause, why }: { readonly cause: string | null; readonly why: 'found' | 'probability' }) {
  const session = useSession();
  const { knowledge } = session.data;
  const known = cause !== null && own(knowledge.causes, cause) ? cause : null;
  return (
    <section class="panel step-card" aria-labelledby="step-head" data-step={`confirmed ${known ?? ''}`}>
      <p class="sheet-kind">{why === 'found' ? 'The cause is found' : 'The cause is as good as certain'}</p>
      <h2 id="step-head" tabIndex={-1}>
        {known ? causeTitle(known, knowledge) : 'Something that is not listed here'}
      </h2>
      {known ? (
        <Repair
          key={known}
          cause={known}
          proposal={
            session.planner.proposals.value.find(({ kind, id }) => kind === 'repair' && id === known) ??
            ownFigures(known, session.situation.value, knowledge)
          }
        />
      ) : (
        <>
          <p>Mend it by the service information of the vehicle, then prove it like any other repair.</p>
          <div class="button-row">
            <button type="button" class="main-button" onClick={() => session.answer({ kind: 'repair', cause: null, outcome: 'gone' })}>
              Mended, the fault is gone so far
            </button>
            <button type="button" onClick={() => session.answer({ kind: 'repair', cause: null, outcome: 'still-there' })}>
              Mended, the fault is still there
            </button>
          </div>
        </>
      )}
    </section>
  );
}
