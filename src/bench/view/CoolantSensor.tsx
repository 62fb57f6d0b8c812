/** Resistance of a coolant sensor: the curve through two points, and a reading held against it. */
import { decimals, figures, signed } from '../calc/figures.ts';
import { fromBase, type Scale } from '../calc/scale.ts';
import {
  allowedErrorKelvin,
  type Curve,
  celsiusAt,
  curveThrough,
  ohmsAt,
  readError,
  type SensorReading,
  usualPoints,
} from '../calc/thermistor.ts';
import { type Entry, NumberEntry, useEntry } from './entry.tsx';
import { Boxes, Result, TakeIntoJob, Waiting } from './parts.tsx';

export interface CoolantSensorData {
  /** °C first. */
  readonly temperature: readonly Scale[];
}

const ohms: readonly Scale[] = [
  { unit: 'Ω', factor: 1, offset: 0 },
  { unit: 'kΩ', factor: 1000, offset: 0 },
];
const words: Readonly<Record<SensorReading, string>> = {
  fits: `Within ${allowedErrorKelvin} K of the curve: the sensor fits at this point.`,
  'reads-cold': 'Resistance too high: it would read too cold.',
  'reads-hot': 'Resistance too low: it would read too hot.',
};

export function CoolantSensor({ data }: { readonly data: CoolantSensorData }) {
  const [cold, hot] = usualPoints;
  const coldAt = useEntry(String(cold.celsius), data.temperature);
  const coldOhms = useEntry(String(cold.ohms), ohms);
  const hotAt = useEntry(String(hot.celsius), data.temperature);
  const hotOhms = useEntry(String(hot.ohms), ohms);
  const measured = useEntry('1900', ohms);
  const thermometer = useEntry('18', data.temperature);
  const known = [coldAt, coldOhms, hotAt, hotOhms].every(({ value }) => value !== null);
  const curve = known
    ? curveThrough({ celsius: coldAt.value!, ohms: coldOhms.value! }, { celsius: hotAt.value!, ohms: hotOhms.value! })
    : null;
  return (
    <>
      <div class="bench-form">
        <fieldset class="bench-group">
          <legend>Two points of the curve</legend>
          <NumberEntry title="First temperature" entry={coldAt} />
          <NumberEntry title="Resistance there" entry={coldOhms} />
          <NumberEntry title="Second temperature" entry={hotAt} />
          <NumberEntry title="Resistance there" entry={hotOhms} />
        </fieldset>
        <fieldset class="bench-group">
          <legend>Measured on the car</legend>
          <NumberEntry title="Resistance" entry={measured} />
          <NumberEntry title="Thermometer beside it" entry={thermometer} />
        </fieldset>
      </div>
      <Result>
        {curve === null ? (
          <Waiting>Two points at different temperatures; the warmer one must have less resistance.</Waiting>
        ) : (
          <>
            <Reading curve={curve} measured={measured} thermometer={thermometer} />
            <CurveTable curve={curve} scale={thermometer.scale} />
          </>
        )}
      </Result>
    </>
  );
}

function Reading({ curve, measured, thermometer }: { readonly curve: Curve; readonly measured: Entry; readonly thermometer: Entry }) {
  const celsius = measured.value === null ? null : celsiusAt(curve, measured.value);
  const show = (value: number) => `${decimals(fromBase(value, thermometer.scale), 1)} ${thermometer.scale.unit}`;
  if (celsius === null) return <Waiting>Type the measured resistance.</Waiting>;
  const error = thermometer.value === null ? null : celsius - thermometer.value;
  return (
    <>
      <p class="result-line">
        It stands for <b>{show(celsius)}</b>. {error !== null && words[readError(error)]}
      </p>
      <Boxes
        items={[
          ['Error against the thermometer', error === null ? 'needs the thermometer' : `${signed(error, 1)} K`],
          [
            'Resistance to expect there',
            thermometer.value === null ? 'needs the thermometer' : `${figures(ohmsAt(curve, thermometer.value), 4)} Ω`,
          ],
          ['B of the curve', `${figures(curve.betaKelvin, 4)} K`],
        ]}
      />
      {error !== null && (
        <TakeIntoJob
          situation={{ results: [{ check: 'measure-coolant-sensor-resistance', outcome: readError(error) }] }}
          what={
            readError(error) === 'fits'
              ? 'a sensor that fits'
              : readError(error) === 'reads-cold'
                ? 'a sensor that reads cold'
                : 'a sensor that reads hot'
          }
        />
      )}
    </>
  );
}

function CurveTable({ curve, scale }: { readonly curve: Curve; readonly scale: Scale }) {
  return (
    <table class="shares">
      <caption>The curve through the two points</caption>
      <tbody>
        {[-20, 0, 20, 40, 60, 80, 100].map((celsius) => (
          <tr key={celsius}>
            <th scope="row">
              {decimals(fromBase(celsius, scale), 1)} {scale.unit}
            </th>
            <td class="number">{figures(ohmsAt(curve, celsius), 3)} Ω</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
