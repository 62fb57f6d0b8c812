/** Compression of all cylinders: spread, and the test with oil. */
import { useState } from 'preact/hooks';
import type { Case } from '../../engine/case.ts';
import {
  type CompressionReading,
  leastShare,
  readRise,
  readSpread,
  riseWithOil,
  type Spread,
  spreadOf,
  strictSpreadKpa,
} from '../calc/compression.ts';
import { decimals, figures, percent, typedNumber } from '../calc/figures.ts';
import { fromBase, type Scale, toBase } from '../calc/scale.ts';
import { Boxes, Result, TakeIntoJob, Waiting } from './parts.tsx';

export interface CompressionData {
  /** kPa first. */
  readonly pressure: readonly Scale[];
}

const verdicts: Readonly<Record<CompressionReading, string>> = {
  even: 'Even: the lowest is at 75 percent of the highest or more.',
  'one-low': 'One cylinder is low: it leaks past a valve, the rings or the gasket.',
  'neighbours-low': 'Two neighbours are low: the gasket may have burnt through between them.',
  uneven: 'Uneven: more than one is low and they are no pair of neighbours.',
};
const outcomes: Readonly<Record<CompressionReading, string>> = {
  even: 'even',
  'one-low': 'one-low',
  'neighbours-low': 'neighbours-low',
  uneven: 'all-low',
};

type Rows = readonly { readonly dry: string; readonly wet: string }[];
const blank = { dry: '', wet: '' };

export function Compression({ data }: { readonly data: CompressionData }) {
  const [unit, setUnit] = useState('psi');
  const [twoBanks, setTwoBanks] = useState(false);
  const [rows, setRows] = useState<Rows>([
    { dry: '165', wet: '' },
    { dry: '160', wet: '' },
    { dry: '110', wet: '150' },
    { dry: '158', wet: '' },
  ]);
  const scale = data.pressure.find((one) => one.unit === unit)!;
  const kPa = (text: string) => {
    const value = typedNumber(text);
    return value === null ? null : toBase(value, scale);
  };
  const switchTo = (next: string) => {
    const to = data.pressure.find((one) => one.unit === next)!;
    const carried = (text: string) => {
      const value = kPa(text);
      return value === null ? text : figures(fromBase(value, to), 4);
    };
    setRows(rows.map(({ dry, wet }) => ({ dry: carried(dry), wet: carried(wet) })));
    setUnit(next);
  };
  const resize = (size: number) => setRows(Array.from({ length: size }, (_, index) => rows[index] ?? blank));
  const write = (place: number, change: Partial<Rows[number]>) =>
    setRows(rows.map((row, index) => (index === place ? { ...row, ...change } : row)));
  const all = rows.map((_, index) => index + 1);
  const banks = twoBanks ? [all.slice(0, Math.ceil(all.length / 2)), all.slice(Math.ceil(all.length / 2))] : [all];
  const spread = spreadOf(rows.map(({ dry }) => kPa(dry)));
  return (
    <>
      <div class="bench-form">
        <div class="entry">
          <label class="entry-main">
            <span>Cylinders</span>
            <select value={rows.length} onChange={(event) => resize(Number(event.currentTarget.value))}>
              {[2, 3, 4, 5, 6, 8, 10, 12].map((size) => (
                <option key={size} value={size} selected={size === rows.length}>
                  {size}
                </option>
              ))}
            </select>
          </label>
        </div>
        <div class="entry">
          <label class="entry-main">
            <span>Gauge reads in</span>
            <select value={unit} onChange={(event) => switchTo(event.currentTarget.value)}>
              {data.pressure.map((one) => (
                <option key={one.unit} value={one.unit} selected={one.unit === unit}>
                  {one.unit}
                </option>
              ))}
            </select>
          </label>
        </div>
        {rows.length > 5 && (
          <label class="bench-tick">
            <input type="checkbox" checked={twoBanks} onChange={(event) => setTwoBanks(event.currentTarget.checked)} />
            The list is bank by bank: first half one bank, second half the other
          </label>
        )}
        <div class="scroll">
          <table class="readings">
            <thead>
              <tr>
                <th scope="col">Cylinder</th>
                <th scope="col">Dry, {unit}</th>
                <th scope="col">With oil, {unit}</th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row, index) => (
                <tr key={index + 1}>
                  <th scope="row">{twoBanks ? `${index + 1}.` : index + 1}</th>
                  {(['dry', 'wet'] as const).map((kind) => (
                    <td key={kind}>
                      <input
                        type="text"
                        inputMode="decimal"
                        autocomplete="off"
                        aria-label={`Cylinder ${index + 1}, ${kind === 'dry' ? 'dry' : 'with oil'}`}
                        value={row[kind]}
                        aria-invalid={row[kind].trim() !== '' && kPa(row[kind]) === null}
                        onFocus={(event) => event.currentTarget.select()}
                        onInput={(event) => write(index, { [kind]: event.currentTarget.value })}
                      />
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </div>
      <Result>
        {spread ? (
          <SpreadResult
            spread={spread}
            reading={readSpread(spread, banks)}
            rises={rows.map(({ dry, wet }) => riseWithOil(kPa(dry), kPa(wet)))}
            scale={scale}
          />
        ) : (
          <Waiting>Type the readings of at least two cylinders.</Waiting>
        )}
      </Result>
    </>
  );
}

function SpreadResult(props: {
  readonly spread: Spread;
  readonly reading: CompressionReading;
  readonly rises: readonly (number | null)[];
  readonly scale: Scale;
}) {
  const { spread, reading, rises, scale } = props;
  const wet = rises.flatMap((rise, index) => (rise === null ? [] : [{ place: index, rise }]));
  // The oil tells about a low cylinder; on a sound one it is the yardstick.
  const lowWet = wet.filter(({ place }) => spread.low.includes(place));
  const results: NonNullable<Case['results']> = [
    { check: 'compression-test', outcome: outcomes[reading] },
    ...(lowWet.length === 1 ? [{ check: 'wet-compression-test', outcome: readRise(lowWet[0]!.rise) }] : []),
  ];
  return (
    <>
      <p class="result-line">
        Lowest is <b>{decimals(100 * spread.share, 1)} %</b> of the highest. {verdicts[reading]}
      </p>
      <Boxes
        items={[
          [
            'Lowest, highest',
            `${figures(fromBase(spread.lowestKpa, scale), 4)} and ${figures(fromBase(spread.highestKpa, scale), 4)} ${scale.unit}`,
          ],
          [
            'Limit of the spread',
            `${percent(leastShare)} of the highest: ${figures(fromBase(leastShare * spread.highestKpa, scale), 4)} ${scale.unit}`,
          ],
          [
            `Stricter handbook: within ${figures(fromBase(strictSpreadKpa, scale), 3)} ${scale.unit}`,
            spread.withinStrictSpread ? 'kept' : 'not kept',
          ],
        ]}
      />
      <table class="shares">
        <caption>Each cylinder as a part of the highest</caption>
        <tbody>
          {spread.shares.map((share, index) =>
            share === null ? null : (
              <tr key={index + 1}>
                <th scope="row">
                  Cylinder {index + 1}
                  {spread.low.includes(index) && <b class="mark">low</b>}
                  <svg class="share-bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
                    <rect class="share-rest" width="100" height="6" />
                    <rect class="share-now" width={100 * share} height="6" />
                    <rect class="share-limit" x={100 * leastShare - 0.4} width="0.8" height="6" />
                  </svg>
                </th>
                <td class="number">{percent(share)}</td>
              </tr>
            ),
          )}
        </tbody>
      </table>
      {wet.map(({ place, rise }) => (
        <p key={place}>
          Oil on cylinder {place + 1}: {rise < 0 ? 'falls' : 'rises'} by {percent(Math.abs(rise))}.{' '}
          {!spread.low.includes(place)
            ? 'It was not low: this is what oil does to a sound cylinder.'
            : readRise(rise) === 'rises'
              ? 'A clear rise: rings or bore.'
              : 'No clear rise: a valve or the gasket.'}
        </p>
      ))}
      <TakeIntoJob situation={{ results }} what="this compression" />
    </>
  );
}
