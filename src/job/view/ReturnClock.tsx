/** How long is long enough without the code? Used in a job and on the page about proof. */

import { chanceFixed, cleanNeeded, rateAfter } from '../../engine/proof/index.ts';
import { type ExposureUnit, exposureUnits, type Proof } from '../state.ts';
import { percent, plain } from './figures.ts';
import { NumberField } from './start/Numbers.tsx';

interface Props {
  readonly proof: Proof;
  /** Belief that the repair was right, before any clean stretch. */
  readonly right: number;
  readonly set: (change: Partial<Proof>) => void;
}

export function ReturnClock({ proof, right, set }: Props) {
  const { returnsBefore, exposureBefore, unit, clean } = proof;
  const known = returnsBefore !== null && exposureBefore !== null && exposureBefore > 0;
  const rate = known ? rateAfter({ returns: returnsBefore, exposure: exposureBefore }) : null;
  const positive = (value: number | null) => (value === null ? null : Math.min(1e5, Math.max(0, value)));
  return (
    <div class="clock">
      <div class="fields fields-narrow">
        <label class="field">
          <span>Count in</span>
          <select value={unit} onChange={(event) => set({ unit: event.currentTarget.value as ExposureUnit })}>
            {exposureUnits.map((choice) => (
              <option key={choice}>{choice}</option>
            ))}
          </select>
        </label>
        <NumberField
          title="Before the repair it came back"
          unit="times"
          value={returnsBefore}
          set={(value) => set({ returnsBefore: positive(value) })}
        />
        <NumberField title="within" unit={unit} value={exposureBefore} set={(value) => set({ exposureBefore: positive(value) })} />
        <NumberField
          title="Since the repair, without the code"
          unit={unit}
          value={clean}
          set={(value) => set({ clean: positive(value) ?? 0 })}
        />
      </div>
      {rate ? (
        <div role="status">
          <p class="clock-verdict">
            Fixed: <b>{percent(chanceFixed(right, rate, clean))}</b>
          </p>
          <div class="ledger ledger-slim">
            <table>
              <thead>
                <tr>
                  <th scope="col">To be this sure</th>
                  <th scope="col" class="number">
                    {unit} in all
                  </th>
                  <th scope="col" class="number">
                    still to go
                  </th>
                </tr>
              </thead>
              <tbody>
                {[0.9, 0.95, 0.99].map((target) => {
                  const needed = cleanNeeded(right, rate, target);
                  return (
                    <tr key={target}>
                      <th scope="row">{percent(target)}</th>
                      <td class="number" data-head={`${unit} in all`}>
                        {Number.isFinite(needed) ? plain(Math.ceil(needed), 0) : 'never'}
                      </td>
                      <td class="number" data-head="still to go">
                        {needed <= clean ? 'reached' : Number.isFinite(needed) ? plain(Math.ceil(needed - clean), 0) : '–'}
                      </td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </div>
        </div>
      ) : (
        <p class="quiet">Say how often it came back before, and over how much: then it can be reckoned how long is long enough.</p>
      )}
      <p class="quiet">
        Reckoned from {percent(right)} that the repair was right, before any driving. Returns are taken as random at a steady rate
        (Poisson); the rate is known only from the history (Gamma with Jeffreys’ prior). A fault that shows only in the cold or wet needs
        cold or wet
        {unit === 'starts' ? ' starts' : ''} to count.
      </p>
    </div>
  );
}
