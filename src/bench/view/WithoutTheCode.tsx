/** How long without the code is long enough. */
import { useState } from 'preact/hooks';
import { decimals, figures, percent } from '../calc/figures.ts';
import { silenceOf } from '../calc/without-the-code.ts';
import { NumberEntry, plainScale, useEntry } from './entry.tsx';
import { Boxes, Result, Waiting } from './parts.tsx';

const units = ['km', 'miles', 'hours', 'starts'] as const;

export function WithoutTheCode() {
  const [unit, choose] = useState<string>('km');
  const returns = useEntry('3', plainScale('times'));
  const exposure = useEntry('600', plainScale(unit));
  const right = useEntry('80', plainScale('%'));
  const clean = useEntry('250', plainScale(unit));
  const counted = (title: string) => `${title}, in ${unit}`;
  const values = [returns, exposure, right, clean].map(({ value }) => value);
  const found = values.every((value) => value !== null) ? silenceOf(values[0]!, values[1]!, values[2]! / 100, values[3]!) : null;
  return (
    <>
      <div class="bench-form">
        <div class="entry">
          <label class="entry-main">
            <span>Count in</span>
            <select value={unit} onChange={(event) => choose(event.currentTarget.value)}>
              {units.map((one) => (
                <option key={one} value={one} selected={one === unit}>
                  {one}
                </option>
              ))}
            </select>
          </label>
        </div>
        <NumberEntry title="Before the repair it came back" entry={returns} hint="The first time ever does not count." />
        <NumberEntry title={counted('Over how much')} entry={{ ...exposure, scale: { ...exposure.scale, unit: '' } }} />
        <NumberEntry
          title="Belief that the repair was right"
          entry={right}
          hint="As found before driving: 95 if the faulty part was seen."
        />
        <NumberEntry title={counted('Without the code since')} entry={{ ...clean, scale: { ...clean.scale, unit: '' } }} />
      </div>
      <Result>
        {found === null ? (
          <Waiting>Type how often it came back, over how much (above zero), a belief from 0 to 100, and how much has been clean.</Waiting>
        ) : (
          <>
            <p class="result-line">
              Fixed: <b>{percent(found.fixed)}</b>
            </p>
            <Boxes
              items={[
                ['It used to come back about once in', `${figures(1 / found.rate, 3)} ${unit}`],
                ['So much silence, were it still there', percent(found.silence)],
                [
                  'Rule of three, 95 % sure: less often than once in',
                  found.onceInMoreThan === null ? 'nothing clean yet' : `${figures(found.onceInMoreThan, 3)} ${unit}`,
                ],
              ]}
            />
            <table class="shares">
              <caption>How long is long enough</caption>
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
                {found.needed.map(({ target, clean: needed }) => (
                  <tr key={target}>
                    <th scope="row">{percent(target)}</th>
                    <td class="number">{Number.isFinite(needed) ? decimals(Math.ceil(needed), 0) : 'never'}</td>
                    <td class="number">
                      {!Number.isFinite(needed) ? '–' : needed <= clean.value! ? 'reached' : decimals(Math.ceil(needed - clean.value!), 0)}
                    </td>
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
