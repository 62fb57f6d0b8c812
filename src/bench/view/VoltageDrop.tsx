/** Voltage drop as a share of the supply, against the usual limit. */
import { useState } from 'preact/hooks';
import { decimals, figures } from '../calc/figures.ts';
import type { Scale } from '../calc/scale.ts';
import { dropOf, usualLimits } from '../calc/voltage-drop.ts';
import { NumberEntry, plainScale, useEntry } from './entry.tsx';
import { Boxes, Result, Waiting } from './parts.tsx';

const volts: readonly Scale[] = [
  { unit: 'V', factor: 1, offset: 0 },
  { unit: 'mV', factor: 0.001, offset: 0 },
];

export function VoltageDrop() {
  const [where, choose] = useState(usualLimits[0]!.id);
  const supply = useEntry('10.6', volts);
  const drop = useEntry('0.45', volts);
  const current = useEntry('180', plainScale('A'));
  const limit = usualLimits.find(({ id }) => id === where)!;
  const found = supply.value === null || drop.value === null ? null : dropOf(supply.value, drop.value, current.value);
  return (
    <>
      <div class="bench-form">
        <div class="entry">
          <label class="entry-main">
            <span>Measured across</span>
            <select value={where} onChange={(event) => choose(event.currentTarget.value)}>
              {usualLimits.map(({ id, title }) => (
                <option key={id} value={id} selected={id === where}>
                  {title}
                </option>
              ))}
            </select>
          </label>
        </div>
        <NumberEntry title="Drop, with current flowing" entry={drop} />
        <NumberEntry title="Battery at the same moment" entry={supply} />
        <NumberEntry title="Current" entry={current} hint="From a clamp meter; may be left empty." />
      </div>
      <Result>
        {found === null ? (
          <Waiting>Type the drop and the battery voltage. The drop cannot be above the battery.</Waiting>
        ) : (
          <>
            <p class="result-line">
              {drop.value! < limit.limitVolts ? 'Below' : 'At or above'} the usual <b>{limit.limitVolts} V</b>:{' '}
              {drop.value! < limit.limitVolts
                ? 'this part of the circuit passes its current.'
                : 'step the tip along to find the joint that eats it.'}
            </p>
            <Boxes
              items={[
                ['Share of the supply lost', `${decimals(100 * found.share, 1)} %`],
                ['Left for the rest', `${decimals(found.leftVolts, 2)} V`],
                ['Resistance of this part', found.ohms === null ? 'needs the current' : `${figures(1000 * found.ohms, 3)} mΩ`],
                ['Heat in this part', found.lostWatts === null ? 'needs the current' : `${figures(found.lostWatts, 3)} W`],
              ]}
            />
          </>
        )}
      </Result>
    </>
  );
}
