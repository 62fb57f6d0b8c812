/** The whole job page: may I drive, what is known, the next step, what it moved, what was done, the keeping. */
import { useEffect } from 'preact/hooks';
import type { Session } from '../session.ts';
import { Bars } from './Bars.tsx';
import { Curve } from './Curve.tsx';
import { SessionContext, useSession } from './context.ts';
import { Done } from './Done.tsx';
import { DrivingPanel } from './Driving.tsx';
import { KeepBar } from './KeepBar.tsx';
import { Later } from './Later.tsx';
import { NextStep } from './NextStep.tsx';
import { PaperSheet } from './PaperSheet.tsx';
import { Start } from './start/Start.tsx';

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
      return <Later load={loadProof} props={{ cause: stage.cause }} waiting={waiting} />;
    case 'ended':
      return <Later load={loadEnded} props={{ how: stage.how }} waiting={waiting} />;
    case 'repair':
      return <Later load={loadConfirmed} props={{ cause: stage.cause, why: stage.why }} waiting={waiting} />;
  }
}

/** What comes after the search is fetched when it comes. */
const loadConfirmed = () => import('./Confirmed.tsx').then(({ Confirmed }) => Confirmed);
const loadEnded = () => import('./Ended.tsx').then(({ Ended }) => Ended);
const loadProof = () => import('./ProofSheet.tsx').then(({ ProofSheet }) => ProofSheet);
const loadGiven = () => import('./Given.tsx').then(({ Given }) => Given);
const waiting = <section class="panel" aria-busy="true" data-step="" />;
