/** The cause is known: its repair as a card, or plain words where it is not listed. */
import { own } from '../state/own.ts';
import { useSession } from './context.ts';
import { ownFigures } from './own-figures.ts';
import { RepairStep } from './RepairStep.tsx';
import { causeTitle } from './words.ts';

export function Confirmed({ cause, why }: { readonly cause: string | null; readonly why: 'found' | 'probability' }) {
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
        <RepairStep
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
