/** May I drive it? Answered first, from the lamp, the symptoms and the codes. */
import { drivingVerdict } from '../state/driving.ts';
import { useSession } from './context.ts';
import { drivingTitles } from './words.ts';

const lampSymptoms = ['lamp-steady', 'lamp-flashing'] as const;

export function DrivingPanel() {
  const session = useSession();
  const { inputs } = session.job.value;
  const { level, reasons } = drivingVerdict(inputs, session.data.words);
  const lamp = lampSymptoms.find((id) => inputs.symptoms[id] === 'present') ?? null;
  const choose = (id: (typeof lampSymptoms)[number] | null) => {
    for (const other of lampSymptoms)
      if (other !== id && inputs.symptoms[other]) session.do({ type: 'symptom', id: other, presence: null });
    if (id) session.do({ type: 'symptom', id, presence: 'present' });
  };
  return (
    <section class={`panel drive drive-${level ?? 'unknown'}`} aria-labelledby="drive-head">
      <h2 id="drive-head">May I drive it?</h2>
      <p class="drive-verdict" role="status">
        {level === null ? 'Say what the lamp does.' : drivingTitles[level]}
      </p>
      {reasons.length > 0 && (
        <ul class="drive-reasons">
          {reasons.slice(0, 3).map((reason) => (
            <li key={reason.because}>
              <b>{reason.because}:</b> {reason.why}
            </li>
          ))}
        </ul>
      )}
      <fieldset class="choices">
        <legend>The engine lamp</legend>
        <Choice name="lamp" label="is steady" on={lamp === 'lamp-steady'} pick={() => choose('lamp-steady')} />
        <Choice name="lamp" label="flashes" on={lamp === 'lamp-flashing'} pick={() => choose('lamp-flashing')} />
        <Choice name="lamp" label="is dark, or I don’t know" on={lamp === null} pick={() => choose(null)} />
      </fieldset>
    </section>
  );
}

export function Choice(props: {
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly on: boolean;
  readonly pick: () => void;
}) {
  return (
    <label class="choice">
      <input type="radio" name={props.name} checked={props.on} onChange={props.pick} />
      <span>
        {props.label}
        {props.hint && <small>{props.hint}</small>}
      </span>
    </label>
  );
}

export function Tick(props: { readonly label: string; readonly hint?: string; readonly on: boolean; readonly set: (on: boolean) => void }) {
  return (
    <label class="choice">
      <input type="checkbox" checked={props.on} onChange={(event) => props.set(event.currentTarget.checked)} />
      <span>
        {props.label}
        {props.hint && <small>{props.hint}</small>}
      </span>
    </label>
  );
}
