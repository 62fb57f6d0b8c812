/** The job is over, one way or another; it can be taken up when the code returns. */
import { useSession } from './context.ts';

export const Ended = ({ how }: { readonly how: 'proven' | 'handed-over' | 'given-up' }) => {
  const session = useSession();
  const right = session.job.value.proof;
  return (
    <section class="panel" aria-labelledby="ended-head" data-step={`ended ${how}`}>
      <h2 id="ended-head">
        {how === 'proven' ? 'The job is done and proven.' : how === 'handed-over' ? 'The car is handed over.' : 'The job rests.'}
      </h2>
      <p>
        It stays on this device{right.clean > 0 ? `, with ${right.clean} ${right.unit} without the code` : ''}. If the code comes back, open
        it again: all that is ruled out counts.
      </p>
      <button
        type="button"
        onClick={() => {
          const repair = session.job.value.timeline.findLast((entry) => entry.kind === 'repair' && entry.outcome === 'gone');
          session.answer({ kind: 'returned', cause: repair?.kind === 'repair' ? repair.cause : null });
        }}
      >
        The code came back
      </button>
    </section>
  );
};
