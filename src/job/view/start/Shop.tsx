/** What was worked on last, what was replaced, which tools there are, what an hour is worth. */
import { defaultHourlyRate } from '../../../engine/formulate.ts';
import type { ReplacementTime } from '../../state.ts';
import { useSession } from '../context.ts';
import { Choice, Tick } from '../Driving.tsx';
import { Moved } from '../Moved.tsx';
import { NumberField } from './Numbers.tsx';
import { SearchList } from './Search.tsx';

export function RecentWork() {
  const session = useSession();
  const { recentWork } = session.job.value.inputs;
  return (
    <>
      <div class="choices">
        {session.data.words.recentWork.map(({ id, title }) => (
          <Tick key={id} label={title} on={recentWork.includes(id)} set={(on) => session.do({ type: 'recent-work', id, on })} />
        ))}
      </div>
      <Moved kinds={['recent-work']} />
    </>
  );
}

const times: readonly (readonly [ReplacementTime, string])[] = [
  ['since-the-code', 'Since the code came'],
  ['just-before', 'Just before it came'],
  ['long-before', 'Long before'],
];

export function Replaced() {
  const session = useSession();
  const { replaced } = session.job.value.inputs;
  const when = (part: string) => replaced.find((entry) => entry.part === part)?.when ?? null;
  return (
    <>
      <SearchList label="Search a part" items={session.data.words.parts} picked={({ id }) => when(id) !== null} first={0}>
        {({ id, title }) =>
          when(id) === null ? (
            <button type="button" onClick={() => session.do({ type: 'replaced', part: id, when: 'since-the-code' })}>
              {title}
            </button>
          ) : (
            <fieldset class="choices">
              <legend>{title} was replaced</legend>
              {times.map(([time, label]) => (
                <Choice
                  key={time}
                  name={`when-${id}`}
                  label={label}
                  on={when(id) === time}
                  pick={() => session.do({ type: 'replaced', part: id, when: time })}
                />
              ))}
              <button type="button" onClick={() => session.do({ type: 'replaced', part: id, when: null })}>
                Not replaced
              </button>
            </fieldset>
          )
        }
      </SearchList>
      <Moved kinds={['replaced']} />
    </>
  );
}

export function Tools() {
  const session = useSession();
  const { tools, hourlyRate } = session.job.value.inputs;
  const { knowledge, words } = session.data;
  return (
    <>
      <NumberField
        title="What an hour of your own work is worth"
        unit="$"
        value={hourlyRate ?? defaultHourlyRate}
        set={(rate) => session.do({ type: 'hourly-rate', rate: rate === null ? null : Math.min(1000, Math.max(0, rate)) })}
      />
      <p>Tools that are not ticked are reckoned at what it costs to borrow or buy them for this job.</p>
      <div class="choices">
        {words.tools
          .filter(({ id }) => !knowledge.tools[id]!.owned)
          .map(({ id, title }) => (
            <Tick key={id} label={title} on={tools.includes(id)} set={(on) => session.do({ type: 'tool', id, on })} />
          ))}
      </div>
    </>
  );
}
