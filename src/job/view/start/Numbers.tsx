/** Freeze frame and fuel trims: numbers with a unit that can be changed. */
import type { FreezeFrame, TrimReadings } from '../../../engine/case.ts';
import { fromContentUnit, toContentUnit, typedNumber, unitChoice } from '../../state/units.ts';
import { useSession } from '../context.ts';
import { Choice } from '../Driving.tsx';
import { Moved } from '../Moved.tsx';

const frame: readonly (readonly [keyof FreezeFrame, string, string])[] = [
  ['engineSpeedRpm', 'Engine speed', 'rpm'],
  ['loadPercent', 'Calculated load', '%'],
  ['coolantCelsius', 'Coolant', '°C'],
  ['intakeAirCelsius', 'Intake air', '°C'],
  ['vehicleSpeedKmh', 'Road speed', 'km/h'],
  ['manifoldKpa', 'Manifold pressure, absolute', 'kPa'],
  ['airFlowGramsPerSecond', 'Air flow', 'g/s'],
  ['throttlePercent', 'Throttle', '%'],
  ['shortTrim1Percent', 'Short-term trim, bank 1', '%'],
  ['longTrim1Percent', 'Long-term trim, bank 1', '%'],
  ['shortTrim2Percent', 'Short-term trim, bank 2', '%'],
  ['longTrim2Percent', 'Long-term trim, bank 2', '%'],
];

/** Fuel trims by key, with their titles. */
export const trims: readonly (readonly [keyof TrimReadings, string])[] = [
  ['idleBank1Percent', 'Bank 1 at warm idle'],
  ['at2500Bank1Percent', 'Bank 1 at 2,500 rpm'],
  ['idleBank2Percent', 'Bank 2 at warm idle'],
  ['at2500Bank2Percent', 'Bank 2 at 2,500 rpm'],
];

const customary: Readonly<Record<string, string>> = { '°C': '°F', 'km/h': 'mph', kPa: 'inHg' };

export function Numbers() {
  const session = useSession();
  const { freezeFrame, trims: readings, units } = session.job.value.inputs;
  const chosen = (unit: string) => unitChoice(unit, units === 'metric' ? unit : (customary[unit] ?? unit));
  return (
    <>
      <fieldset class="choices">
        <legend>Units</legend>
        <Choice name="units" label="°C, km/h, kPa" on={units === 'metric'} pick={() => session.do({ type: 'units', units: 'metric' })} />
        <Choice
          name="units"
          label="°F, mph, inHg"
          on={units === 'customary'}
          pick={() => session.do({ type: 'units', units: 'customary' })}
        />
      </fieldset>
      <h4>Freeze frame: stored with the first code</h4>
      <div class="fields fields-narrow">
        {frame.map(([key, title, unit]) => {
          const choice = chosen(unit);
          return (
            <NumberField
              key={`${key} ${choice.unit}`}
              title={title}
              unit={choice.unit}
              value={freezeFrame[key] === undefined ? null : fromContentUnit(freezeFrame[key], choice)}
              set={(value) => session.do({ type: 'freeze-frame', key, value: value === null ? null : toContentUnit(value, choice) })}
            />
          );
        })}
      </div>
      <Moved kinds={['freeze-frame']} />
      <h4>Fuel trims, live: short term and long term added</h4>
      <div class="fields fields-narrow">
        {trims.map(([key, title]) => (
          <NumberField
            key={key}
            title={title}
            unit="%"
            value={readings[key] ?? null}
            set={(value) => session.do({ type: 'trim', key, value })}
          />
        ))}
      </div>
      <Moved kinds={['trims']} />
    </>
  );
}

export function NumberField(props: {
  readonly title: string;
  readonly unit: string;
  readonly value: number | null;
  readonly set: (value: number | null) => void;
}) {
  const { title, unit, value, set } = props;
  return (
    <label class="field">
      <span>
        {title} <small>{unit}</small>
      </span>
      <input
        type="text"
        inputMode="decimal"
        autocomplete="off"
        value={value === null ? '' : String(Number(value.toFixed(2)))}
        onChange={(event) => {
          const text = event.currentTarget.value;
          const number = typedNumber(text);
          event.currentTarget.setCustomValidity(text.trim() !== '' && number === null ? 'This is no number.' : '');
          event.currentTarget.reportValidity();
          if (text.trim() === '' || number !== null) set(number);
        }}
      />
    </label>
  );
}
