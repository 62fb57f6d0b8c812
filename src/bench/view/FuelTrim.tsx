/** Fuel trim at two speeds, per bank. */
import type { TrimSignature } from '../../engine/knowledge.ts';
import { signed } from '../calc/figures.ts';
import { type BankReading, banksOff, changeOf, readingsOf, signatureFits, totalTrim, usualLimitPercent } from '../calc/fuel-trim.ts';
import { type Entry, NumberEntry, plainScale, useEntry } from './entry.tsx';
import { Boxes, Links, type Named, Result, Shares, TakeIntoJob, Waiting } from './parts.tsx';

export interface FuelTrimData {
  readonly signatures: readonly TrimSignature[];
  /** By id of the signature: what it looks like, and the causes that show it. */
  readonly about: Readonly<Record<string, { readonly what: string; readonly causes: readonly Named[] }>>;
}

const scales = plainScale('%');
const changeWords = {
  falls: 'falls as the engine turns faster',
  holds: 'holds at both speeds (within 5 %)',
  climbs: 'climbs as the engine turns faster',
};
const bankWords = {
  none: `Neither bank is beyond ${usualLimitPercent} %.`,
  one: 'One bank only is off: look at what serves that bank alone, such as its sensor, its gasket, an exhaust leak on its side.',
  both: 'Both banks are off to the same side: look at what both share, such as the air meter, the fuel supply, the intake ahead of the split.',
  opposite: 'The banks are off to opposite sides: sensors or their plugs may be crossed from bank to bank.',
};

function useBank(start: readonly [string, string, string, string]) {
  const entries = [useEntry(start[0], scales), useEntry(start[1], scales), useEntry(start[2], scales), useEntry(start[3], scales)] as const;
  const reading: BankReading = {
    idle: { shortPercent: entries[0].value, longPercent: entries[1].value },
    raised: { shortPercent: entries[2].value, longPercent: entries[3].value },
  };
  return { entries, reading };
}

export function FuelTrim({ data }: { readonly data: FuelTrimData }) {
  const first = useBank(['4', '16', '1', '3']);
  const second = useBank(['', '', '', '']);
  const readings = readingsOf(first.reading, second.reading);
  const off = banksOff(readings);
  return (
    <>
      <div class="bench-form">
        <BankFields bank={1} entries={first.entries} />
        <BankFields bank={2} entries={second.entries} />
      </div>
      <Result>
        <BankResult bank={1} reading={first.reading} data={data} />
        <BankResult bank={2} reading={second.reading} data={data} />
        {off && <p class="result-line">{bankWords[off]}</p>}
        {Object.keys(readings).length === 0 ? (
          <Waiting>Type the trims of at least one bank at one speed.</Waiting>
        ) : (
          <TakeIntoJob situation={{ trims: readings }} what="these trims" />
        )}
      </Result>
    </>
  );
}

function BankFields({ bank, entries }: { readonly bank: number; readonly entries: readonly Entry[] }) {
  const [idleShort, idleLong, raisedShort, raisedLong] = entries as [Entry, Entry, Entry, Entry];
  return (
    <fieldset class="bench-group">
      <legend>
        Bank {bank} {bank === 2 && <small>if the engine has one</small>}
      </legend>
      <NumberEntry title="Short term at warm idle" entry={idleShort} />
      <NumberEntry title="Long term at warm idle" entry={idleLong} />
      <NumberEntry title="Short term at 2,500 rpm" entry={raisedShort} />
      <NumberEntry title="Long term at 2,500 rpm" entry={raisedLong} />
    </fieldset>
  );
}

function BankResult({ bank, reading, data }: { readonly bank: 1 | 2; readonly reading: BankReading; readonly data: FuelTrimData }) {
  const idle = totalTrim(reading.idle);
  const raised = totalTrim(reading.raised);
  if (idle === null && raised === null) return null;
  const fits = signatureFits(bank, readingsOf(reading, reading), data.signatures);
  const best = fits[0]!;
  const about = data.about[best.signature.id];
  const show = (total: number | null) => (total === null ? 'not read' : `${signed(total)} %`);
  return (
    <section aria-label={`Bank ${bank}`}>
      <h2 class="bench-head">Bank {bank}</h2>
      <Boxes
        items={[
          ['Total at idle', show(idle)],
          ['Total at 2,500 rpm', show(raised)],
          [
            'Change',
            idle === null || raised === null ? 'needs both speeds' : `${signed(raised - idle)} %: ${changeWords[changeOf(idle, raised)]}`,
          ],
        ]}
      />
      <p class="result-line">
        Best fit: <b>{best.signature.title}</b>
      </p>
      {about && <p>{about.what}</p>}
      {about && about.causes.length > 0 && (
        <details>
          <summary>Causes that show this</summary>
          <Links items={about.causes} />
        </details>
      )}
      <Shares
        caption="How well each pattern fits, all taken as equally likely before"
        rows={fits.map(({ signature, share }) => ({ id: signature.id, title: signature.title, share }))}
      />
    </section>
  );
}
