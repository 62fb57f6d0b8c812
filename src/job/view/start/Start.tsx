/** Everything that can be told before the first step; each part can be left out. */
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { useSession } from '../context.ts';
import { Later } from '../Later.tsx';
import { Codes } from './Codes.tsx';

type Parts = typeof import('./Parts.tsx');

/** One function for each part, so that each is fetched, and kept, once. */
const loads = Object.fromEntries(
  (['RecentWork', 'Symptoms', 'Conditions', 'Car', 'Replaced', 'Numbers', 'Tools'] as const).map((part) => [
    part,
    () => import('./Parts.tsx').then((parts) => parts[part]),
  ]),
) as Readonly<Record<keyof Parts, () => Promise<() => JSX.Element>>>;

export function Start() {
  const { inputs, timeline } = useSession().job.value;
  const count = (record: object) => Object.keys(record).length;
  return (
    <section class="panel" aria-labelledby="start-head">
      <details class="known" open={timeline.length === 0}>
        <summary>
          <h2 id="start-head">What is known</h2>
        </summary>
        <p class="quiet">All of it can be left out. What you tell moves the causes at once.</p>
        <h3>Codes</h3>
        <Codes />
        <Part title="What was worked on last?" told={inputs.recentWork.length} body={loads.RecentWork} />
        <Part title="What do you notice?" told={count(inputs.symptoms)} body={loads.Symptoms} />
        <Part title="When does it show?" told={count(inputs.conditions)} body={loads.Conditions} />
        <Part title="The car" told={count(inputs.traits) + (inputs.cylinders === null ? 0 : 1)} body={loads.Car} />
        <Part title="Parts already replaced" told={inputs.replaced.length} body={loads.Replaced} />
        <Part title="Freeze frame and fuel trims" told={count(inputs.freezeFrame) + count(inputs.trims)} body={loads.Numbers} />
        <Part title="Tools, and what an hour is worth" told={inputs.tools.length} body={loads.Tools} />
      </details>
    </section>
  );
}

interface PartProps {
  readonly title: string;
  readonly told: number;
  readonly body: () => Promise<() => JSX.Element>;
}

function Part({ title, told, body }: PartProps) {
  // Long lists are built when they are first wanted, so that an answer does not wait for them.
  const [opened, setOpened] = useState(false);
  return (
    <details class="part" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>
        <h3>{title}</h3> {told > 0 && <span class="told">{told} told</span>}
      </summary>
      <div class="part-body">{opened && <Later load={body} props={{}} />}</div>
    </details>
  );
}
