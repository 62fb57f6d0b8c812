/** Chance solved against money for this job, with the other orders beside it. Reckoned when asked for: it takes seconds. */

import { useSession } from './context.ts';
import { Later } from './Later.tsx';

const load = () => import('./CurveDrawn.tsx').then(({ CurveDrawn }) => CurveDrawn);

export function Curve() {
  const { planner } = useSession();
  const orders = planner.orders.value;
  return (
    <section class="panel" aria-labelledby="curve-head">
      <details
        onToggle={(event) => {
          if (event.currentTarget.open) planner.compare();
        }}
      >
        <summary>
          <h2 id="curve-head">What this order saves</h2>
        </summary>
        {orders === null ? (
          <p role="status">
            <button type="button" onClick={() => planner.compare()}>
              Reckon it
            </button>{' '}
            It takes some seconds; the rest of the page goes on meanwhile.
          </p>
        ) : (
          <Later load={load} props={{ orders }} />
        )}
      </details>
    </section>
  );
}
