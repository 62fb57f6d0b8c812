/** Vacuum against altitude: the workshop rule beside the barometric formula. */
import { decimals } from '../calc/figures.ts';
import { fromBase, type Scale } from '../calc/scale.ts';
import {
  barometerKpa,
  carriedToSeaLevelKpa,
  expectedByAtmosphereKpa,
  expectedByRuleKpa,
  highestMetres,
  kPaPerInHg,
  lowestMetres,
  manifoldAbsoluteKpa,
} from '../calc/vacuum.ts';
import { NumberEntry, useEntry } from './entry.tsx';
import { Boxes, Result, TakeIntoJob, Waiting } from './parts.tsx';

export interface VacuumData {
  /** kPa first. */
  readonly pressure: readonly Scale[];
  /** Metres first. */
  readonly height: readonly Scale[];
}

/** Steady vacuum at sea level that the check calls normal, inHg; common practice round the handbook's 20. */
const normalFromInHg = 17;

export function Vacuum({ data }: { readonly data: VacuumData }) {
  const reading = useEntry('16', data.pressure, 'inHg');
  const height = useEntry('4000', data.height, 'ft');
  const figure = useEntry('20', data.pressure, 'inHg');
  const show = (kPa: number | null) =>
    kPa === null ? '–' : `${decimals(fromBase(kPa, reading.scale), reading.scale.unit === 'bar' ? 3 : 1)} ${reading.scale.unit}`;
  const ready = height.value !== null && figure.value !== null;
  const outside = height.value !== null && barometerKpa(height.value) === null;
  return (
    <>
      <div class="bench-form">
        <NumberEntry title="Height above sea level" entry={height} />
        <NumberEntry title="Reading on the gauge, warm idle" entry={reading} />
        <NumberEntry
          title="Figure at sea level"
          entry={figure}
          hint="The engine’s own, from the service information; about 20 inHg else."
        />
      </div>
      <Result>
        {!ready && <Waiting>Type the height and the figure at sea level.</Waiting>}
        {outside && (
          <Waiting>
            The formula holds from {lowestMetres} to {highestMetres} m.
          </Waiting>
        )}
        {ready && !outside && (
          <>
            <Boxes
              items={[
                ['To expect here, by the rule', show(expectedByRuleKpa(figure.value!, height.value!))],
                ['To expect here, by the atmosphere', show(expectedByAtmosphereKpa(figure.value!, height.value!))],
                ['Barometer, standard day', show(barometerKpa(height.value!))],
              ]}
            />
            {reading.value !== null && (
              <Read readingKpa={reading.value} heightMetres={height.value!} figureKpa={figure.value!} show={show} />
            )}
          </>
        )}
      </Result>
    </>
  );
}

function Read(props: {
  readonly readingKpa: number;
  readonly heightMetres: number;
  readonly figureKpa: number;
  readonly show: (kPa: number | null) => string;
}) {
  const { readingKpa, heightMetres, figureKpa, show } = props;
  const carried = carriedToSeaLevelKpa(readingKpa, heightMetres);
  const absolute = manifoldAbsoluteKpa(readingKpa, heightMetres);
  const normal = carried >= normalFromInHg * kPaPerInHg;
  return (
    <>
      <p class="result-line">
        Carried to sea level: <b>{show(carried)}</b>
      </p>
      <Boxes
        items={[
          ['Against the figure at sea level', show(carried - figureKpa)],
          ['Absolute pressure in the manifold', absolute === null ? 'more vacuum than there is air' : show(absolute)],
        ]}
      />
      <p>
        {normal
          ? 'At or above the 17 inHg that most engines reach at sea level. If the needle is steady too, no large leak bleeds the manifold; a small one still may.'
          : 'Below the 17 inHg that most engines reach at sea level. If the needle is steady, a large leak, late timing, exhaust gas at idle or a blocked exhaust fit.'}
      </p>
      {absolute !== null && (
        <TakeIntoJob
          situation={{ results: [{ check: 'read-manifold-vacuum', outcome: normal ? 'steady-normal' : 'steady-low' }] }}
          what={normal ? 'a steady, normal vacuum' : 'a steady, low vacuum'}
        />
      )}
    </>
  );
}
