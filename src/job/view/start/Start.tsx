/** Everything that can be told before the first step; each part can be left out. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { useSession } from '../context.ts';
import { Car } from './Car.tsx';
import { Codes } from './Codes.tsx';
import { Numbers } from './Numbers.tsx';
import { RecentWork, Replaced, Tools } from './Shop.tsx';
import { Conditions, Symptoms } from './Symptoms.tsx';

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
        <Part title="What was worked on last?" told={inputs.recentWork.length}>
          <RecentWork />
        </Part>
        <Part title="What do you notice?" told={count(inputs.symptoms)}>
          <Symptoms />
        </Part>
        <Part title="When does it show?" told={count(inputs.conditions)}>
          <Conditions />
        </Part>
        <Part title="The car" told={count(inputs.traits) + (inputs.cylinders === null ? 0 : 1)}>
          <Car />
        </Part>
        <Part title="Parts already replaced" told={inputs.replaced.length}>
          <Replaced />
        </Part>
        <Part title="Freeze frame and fuel trims" told={count(inputs.freezeFrame) + count(inputs.trims)}>
          <Numbers />
        </Part>
        <Part title="Tools, and what an hour is worth" told={inputs.tools.length}>
          <Tools />
        </Part>
      </details>
    </section>
  );
}

function Part({ title, told, children }: { readonly title: string; readonly told: number; readonly children: ComponentChildren }) {
  // Long lists are built when they are first wanted, so that an answer does not wait for them.
  const [opened, setOpened] = useState(false);
  return (
    <details class="part" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>
        <h3>{title}</h3> {told > 0 && <span class="told">{told} told</span>}
      </summary>
      <div class="part-body">{opened && children}</div>
    </details>
  );
}
