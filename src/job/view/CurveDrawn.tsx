/** The comparison of orders, drawn and as a table. */
import type { Strategy } from '../../engine/plan/index.ts';
import type { OtherOrder } from '../planner/outlook.ts';
import { money, percent, ticksTo } from './figures.ts';

const titles: Readonly<Record<Strategy, string>> = {
  computed: 'This order',
  'cheapest-first': 'Cheapest first',
  'likeliest-first': 'Likeliest first',
  'replace-by-likelihood': 'Parts by likelihood',
  'hand-over-at-once': 'Hand over at once',
};
const width = 400;
const height = 280;
const plot = { left: 56, right: 388, top: 12, bottom: 236 };

export function CurveDrawn({ orders }: { readonly orders: readonly OtherOrder[] }) {
  const drawn = orders.filter(({ curve }) => curve.length > 1);
  const dearest = Math.max(1, ...drawn.map(({ curve }) => costOfShare(curve, 0.97)));
  const x = (cost: number) => plot.left + ((plot.right - plot.left) * Math.min(cost, dearest)) / dearest;
  const y = (chance: number) => plot.bottom - (plot.bottom - plot.top) * chance;
  const path = (curve: OtherOrder['curve']) =>
    `${curve
      .filter(([cost]) => cost <= dearest)
      .map(([cost, chance], index) => (index === 0 ? `M${x(cost)} ${y(chance)}` : `H${x(cost).toFixed(1)}V${y(chance).toFixed(1)}`))
      .join('')}H${plot.right}`;
  return (
    <figure class="curve">
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label="Chance solved against money spent; the table below says the same">
        {[0, 0.25, 0.5, 0.75, 1].map((chance) => (
          <g key={chance}>
            <path class="curve-grid" d={`M${plot.left} ${y(chance)}H${plot.right}`} />
            <text class="curve-tick curve-tick-chance" x={plot.left - 6} y={y(chance) + 5}>
              {`${100 * chance} %`}
            </text>
          </g>
        ))}
        {ticksTo(dearest, 4).map((cost) => (
          <text key={cost} class="curve-tick" x={x(cost)} y={plot.bottom + 24}>
            {money(cost)}
          </text>
        ))}
        <path class="curve-axis" d={`M${plot.left} ${plot.top}V${plot.bottom}H${plot.right}`} />
        {drawn.toReversed().map(({ strategy, curve }) => (
          <path key={strategy} class={`curve-line curve-${strategy}`} d={path(curve)} />
        ))}
      </svg>
      <div class="ledger">
        <table>
          <thead>
            <tr>
              <th scope="col">Order</th>
              <th scope="col" class="number">
                Expected
              </th>
              <th scope="col" class="number">
                Half done by
              </th>
              <th scope="col" class="number">
                Solved by you
              </th>
            </tr>
          </thead>
          <tbody>
            {orders.map(({ strategy, expectedCost, median, solved }) => (
              <tr key={strategy}>
                <th scope="row">
                  <svg viewBox="0 0 40 8" width="40" height="8" aria-hidden="true">
                    <path class={`curve-line curve-${strategy}`} d="M0 4H40" />
                  </svg>{' '}
                  {titles[strategy]}
                </th>
                <td class="number" data-head="Expected">
                  {money(expectedCost)}
                </td>
                <td class="number" data-head="Half done by">
                  {money(median)}
                </td>
                <td class="number" data-head="Solved by you">
                  {percent(solved)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <figcaption>
        Everything spent from here on: money, and time at what an hour is worth. Only the likeliest causes and the most telling checks are
        followed.
      </figcaption>
    </figure>
  );
}

/** The cost by which a line has told this share of all that it will ever solve. */
function costOfShare(curve: OtherOrder['curve'], share: number): number {
  const end = curve.at(-1)![1];
  return curve.find(([, chance]) => chance >= share * end)?.[0] ?? 0;
}
