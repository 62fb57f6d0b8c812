/** What the driver notices, and when: each present, absent or not known. */
import type { Presence } from '../../../engine/case.ts';
import { useSession } from '../context.ts';
import { Moved } from '../Moved.tsx';
import { SearchList } from './Search.tsx';

/** The lamp has its own question; these are what people name most. */
const usual = [
  'shakes-at-stop-light',
  'weak-uphill',
  'stumbles-under-load',
  'hard-start-cold',
  'no-start',
  'stalls-at-stop',
  'uses-more-fuel',
  'smells-of-fuel',
];

export function Symptoms() {
  const session = useSession();
  const { symptoms } = session.job.value.inputs;
  const rank = (id: string) => (usual.includes(id) ? usual.indexOf(id) : usual.length);
  const items = session.data.words.symptoms
    .filter(({ id }) => !id.startsWith('lamp-steady') && !id.startsWith('lamp-flashing'))
    .toSorted((a, b) => rank(a.id) - rank(b.id));
  return (
    <>
      <SearchList label="Search a symptom, in your own words" items={items} picked={({ id }) => symptoms[id] !== undefined} first={8}>
        {(item) => (
          <Present
            title={item.title}
            presence={symptoms[item.id] ?? null}
            set={(presence) => session.do({ type: 'symptom', id: item.id, presence })}
          />
        )}
      </SearchList>
      <Moved kinds={['symptom']} />
    </>
  );
}

export function Conditions() {
  const session = useSession();
  const { conditions } = session.job.value.inputs;
  return (
    <>
      <ul class="plain">
        {session.data.words.conditions.map((item) => (
          <li key={item.id}>
            <Present
              title={item.title}
              presence={conditions[item.id] ?? null}
              set={(presence) => session.do({ type: 'condition', id: item.id, presence })}
            />
          </li>
        ))}
      </ul>
      <Moved kinds={['condition', 'freeze-frame']} />
    </>
  );
}

function Present(props: { readonly title: string; readonly presence: Presence | null; readonly set: (presence: Presence | null) => void }) {
  const { title, presence, set } = props;
  return (
    <fieldset class="present">
      <legend>{title}</legend>
      <button type="button" aria-pressed={presence === 'present'} onClick={() => set(presence === 'present' ? null : 'present')}>
        Yes
      </button>
      <button type="button" aria-pressed={presence === 'absent'} onClick={() => set(presence === 'absent' ? null : 'absent')}>
        No
      </button>
    </fieldset>
  );
}
