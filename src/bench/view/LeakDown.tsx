/** Leak-down of one cylinder beside a good one. */

import { decimals } from '../calc/figures.ts';
import { leakage, readLeakage } from '../calc/leak-down.ts';
import type { Scale } from '../calc/scale.ts';
import { NumberEntry, useEntry } from './entry.tsx';
import { Boxes, Result, Waiting } from './parts.tsx';

export interface LeakDownData {
  /** kPa first. */
  readonly pressure: readonly Scale[];
}

const words = {
  good: 'Good, by the rule of thumb (below 10 %).',
  fair: 'Fair, by the rule of thumb (10 to 20 %).',
  poor: 'Poor, by the rule of thumb (above 20 %). Where does it hiss?',
};

export function LeakDown({ data }: { readonly data: LeakDownData }) {
  const fed = useEntry('100', data.pressure, 'psi');
  const held = useEntry('72', data.pressure, 'psi');
  const good = useEntry('92', data.pressure, 'psi');
  const lost = fed.value === null || held.value === null ? null : leakage(fed.value, held.value);
  const lostGood = fed.value === null || good.value === null ? null : leakage(fed.value, good.value);
  return (
    <>
      <div class="bench-form">
        <NumberEntry title="Pressure fed (first gauge)" entry={fed} />
        <NumberEntry title="Pressure held (second gauge)" entry={held} />
        <NumberEntry title="Held by a good cylinder" entry={good} hint="Of the same engine, same tester." />
      </div>
      <Result>
        {lost === null ? (
          <Waiting>Type both gauges. The second cannot read more than the first.</Waiting>
        ) : (
          <>
            <p class="result-line">
              Lost: <b>{decimals(100 * lost, 1)} %</b>. {words[readLeakage(lost)]}
            </p>
            <Boxes
              items={[
                ['Good cylinder loses', lostGood === null ? 'not read' : `${decimals(100 * lostGood, 1)} %`],
                ['Spread between the two', lostGood === null ? 'needs both' : `${decimals(100 * Math.abs(lost - lostGood), 1)} points`],
              ]}
            />
            <table class="shares shares-words">
              <caption>Where the air comes out tells more than the number</caption>
              <tbody>
                {[
                  ['Throttle', 'an intake valve'],
                  ['Tail pipe', 'an exhaust valve'],
                  ['Oil filler', 'rings, bore or piston'],
                  ['Neighbour’s plug hole, or bubbles in the coolant', 'the head gasket, or a crack'],
                ].map(([where, what]) => (
                  <tr key={where}>
                    <th scope="row">{where}</th>
                    <td>{what}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </>
        )}
      </Result>
    </>
  );
}
