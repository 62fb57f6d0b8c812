/** How likely each cause is now, and where it stood before the last answer. A table that is also a chart: no colour needed. */

import { useSession } from './context.ts';
import { percent } from './figures.ts';
import { causeTitle } from './words.ts';

const most = 8;

export function Bars() {
  const session = useSession();
  const { causes } = session.belief.value;
  const before = new Map(session.before.value?.causes.map(({ id, probability }) => [id, probability]));
  const shown = causes.slice(0, most);
  const rest = causes.slice(most);
  const restNow = rest.reduce((sum, { probability }) => sum + probability, 0);
  const known = before.size > 0;
  return (
    <section class="panel beliefs" aria-labelledby="bars-head">
      <h2 id="bars-head">Likeliest causes</h2>
      <div class="ledger ledger-slim">
        <table>
          <thead>
            <tr>
              <th scope="col">Cause</th>
              <th scope="col" class="number">
                Now
              </th>
              {known && (
                <th scope="col" class="number">
                  Before
                </th>
              )}
            </tr>
          </thead>
          <tbody>
            {shown.map(({ id, probability }) => (
              <tr key={id ?? 'none'}>
                <th scope="row">
                  {id === null ? (
                    causeTitle(id, session.data.knowledge)
                  ) : (
                    <a href={`/causes/${id}/`}>{causeTitle(id, session.data.knowledge)}</a>
                  )}
                  <Bar now={probability} before={before.get(id) ?? null} />
                </th>
                <td class="number" data-head="Now">
                  <b>{percent(probability)}</b>
                </td>
                {known && (
                  <td class="number" data-head="Before">
                    {percent(before.get(id) ?? 0)}
                  </td>
                )}
              </tr>
            ))}
            {rest.length > 0 && (
              <tr>
                <th scope="row">{rest.length} more</th>
                <td class="number" data-head="Now">
                  {percent(restNow)}
                </td>
                {known && (
                  <td class="number" data-head="Before">
                    {percent(rest.reduce((sum, { id }) => sum + (before.get(id) ?? 0), 0))}
                  </td>
                )}
              </tr>
            )}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Bar({ now, before }: { readonly now: number; readonly before: number | null }) {
  const width = Math.round(1000 * now) / 10;
  const mark = before === null ? null : Math.round(1000 * before) / 10;
  return (
    <svg class="belief-bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
      <rect class="belief-rest" width="100" height="8" />
      <rect class="belief-now" width={width} height="8" />
      {mark !== null && <rect class="belief-mark" x={Math.max(0, mark - 0.4)} width="0.8" height="8" />}
    </svg>
  );
}
