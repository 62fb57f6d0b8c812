/** Lambda from the exhaust, and air-fuel ratio by fuel. */
import { useState } from 'preact/hooks';
import { decimals } from '../calc/figures.ts';
import { fuels, lambdaOfExhaust, lambdaOfOxygen, lambdaOfRatio, type Mixture, ratioOfLambda, readLambda } from '../calc/lambda.ts';
import { NumberEntry, plainScale, useEntry } from './entry.tsx';
import { Boxes, Result, Waiting } from './parts.tsx';

const words: Readonly<Record<Mixture, string>> = { rich: 'rich', 'near-one': 'near 1, within 3 %', lean: 'lean' };

export function Lambda() {
  return (
    <>
      <FromExhaust />
      <FromRatio />
    </>
  );
}

function FromExhaust() {
  const co = useEntry('0.3', plainScale('%'));
  const co2 = useEntry('14.2', plainScale('%'));
  const o2 = useEntry('1.4', plainScale('%'));
  const hc = useEntry('120', plainScale('ppm'));
  const full =
    co.value !== null && co2.value !== null && o2.value !== null
      ? lambdaOfExhaust({
          carbonMonoxidePercent: co.value,
          carbonDioxidePercent: co2.value,
          oxygenPercent: o2.value,
          hydrocarbonsPpm: hc.value ?? 0,
        })
      : null;
  const byOxygen = o2.value === null ? null : lambdaOfOxygen(o2.value);
  const both = full !== null && byOxygen !== null;
  return (
    <section class="bench-part" aria-label="From the exhaust">
      <h2 class="bench-head">From the exhaust</h2>
      <div class="bench-form">
        <NumberEntry title="Oxygen, O₂" entry={o2} />
        <NumberEntry title="Carbon dioxide, CO₂" entry={co2} />
        <NumberEntry title="Carbon monoxide, CO" entry={co} />
        <NumberEntry title="Hydrocarbons, as hexane" entry={hc} hint="Left empty counts as none." />
      </div>
      <Result>
        {full === null ? (
          <Waiting>
            {byOxygen === null
              ? 'Type the oxygen, at least: below that of air. With CO₂ and CO the equation is complete.'
              : 'From oxygen alone, if all the fuel burns:'}
          </Waiting>
        ) : (
          <p class="result-line">
            Lambda <b>{decimals(full, 3)}</b>: {words[readLambda(full)]}
          </p>
        )}
        {(full !== null || byOxygen !== null) && (
          <Boxes
            items={[
              ['From all gases', full === null ? 'needs CO₂ and CO' : decimals(full, 3)],
              ['From oxygen alone', byOxygen === null ? '–' : decimals(byOxygen, 3)],
            ]}
          />
        )}
        {both && byOxygen - full > 0.02 && (
          <p>
            Oxygen alone says leaner than all gases: fuel left unburnt, as with a misfire or a rich mixture, explains part of the oxygen.
          </p>
        )}
      </Result>
    </section>
  );
}

function FromRatio() {
  const [which, choose] = useState(fuels[1]!.id);
  const ratio = useEntry('13.4', plainScale(': 1'));
  const lambda = useEntry('1.05', plainScale(''));
  const fuel = fuels.find(({ id }) => id === which)!;
  return (
    <section class="bench-part" aria-label="Air-fuel ratio and lambda">
      <h2 class="bench-head">Air-fuel ratio and lambda</h2>
      <div class="bench-form">
        <div class="entry">
          <label class="entry-main">
            <span>Fuel</span>
            <select value={which} onChange={(event) => choose(event.currentTarget.value)}>
              {fuels.map(({ id, title }) => (
                <option key={id} value={id} selected={id === which}>
                  {title}
                </option>
              ))}
            </select>
          </label>
        </div>
        <NumberEntry title="Air-fuel ratio" entry={ratio} />
        <NumberEntry title="Lambda" entry={lambda} />
      </div>
      <Result>
        <Boxes
          items={[
            ['Without rest, this fuel', `${fuel.stoichiometricRatio} : 1`],
            [
              `Lambda at ${ratio.value === null ? '…' : decimals(ratio.value, 2)} : 1`,
              ratio.value === null || ratio.value <= 0 ? 'needs the ratio' : decimals(lambdaOfRatio(ratio.value, fuel), 3),
            ],
            [
              `Ratio at lambda ${lambda.value === null ? '…' : decimals(lambda.value, 3)}`,
              lambda.value === null || lambda.value <= 0 ? 'needs lambda' : `${decimals(ratioOfLambda(lambda.value, fuel), 2)} : 1`,
            ],
          ]}
        />
      </Result>
    </section>
  );
}
