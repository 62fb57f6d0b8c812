/** The page about proof: the return clock and the inspection, without a job. */
import { render } from 'preact';
import { useState } from 'preact/hooks';
import { emptyProof, type Proof } from '../state/job.ts';
import { percent } from './figures.ts';
import { Inspection } from './ProofSheet.tsx';
import { ReturnClock } from './ReturnClock.tsx';
import { NumberField } from './start/Numbers.tsx';

function ProofBench() {
  const [proof, setProof] = useState<Proof>({ ...emptyProof, returnsBefore: 3, exposureBefore: 400 });
  const [right, setRight] = useState(0.7);
  const [year, setYear] = useState<number | null>(null);
  return (
    <>
      <section class="panel" aria-labelledby="clock-head">
        <h2 id="clock-head">How long is long enough?</h2>
        <label class="field">
          <span>
            How sure are you that the repair was the right one, before driving? <output>{percent(right)}</output>
          </span>
          <input
            type="range"
            min="5"
            max="95"
            step="5"
            value={100 * right}
            onInput={(event) => setRight(Number(event.currentTarget.value) / 100)}
          />
        </label>
        <ReturnClock proof={proof} right={right} set={(change) => setProof({ ...proof, ...change })} />
      </section>
      <section class="panel" aria-labelledby="inspection-head">
        <h2 id="inspection-head">Inspection</h2>
        <NumberField title="Model year" unit="" value={year} set={(value) => setYear(value === null ? null : Math.round(value))} />
        <Inspection modelYear={year} />
      </section>
    </>
  );
}

export function mountProof(place: HTMLElement): void {
  place.textContent = '';
  render(<ProofBench />, place);
  place.dataset['ready'] = '';
}
