/** Wakes the calculator that the page was sent with: same markup, same data, now it answers. */
import { hydrate } from 'preact';
import type { Case } from '../engine/case.ts';
import { OpenJob } from './view/parts.tsx';
import { views } from './views.ts';

/** @param openJob how a case travels to the job page; the page knows, the bench does not. */
export async function wakeBench(place: HTMLElement, openJob: (situation: Case) => void): Promise<void> {
  const load = views[place.dataset['bench'] ?? ''];
  if (!load) return;
  const data = JSON.parse(document.getElementById('bench-data')?.textContent ?? 'null');
  const View = await load();
  hydrate(
    <OpenJob.Provider value={openJob}>
      <View data={data as never} />
    </OpenJob.Provider>,
    place,
  );
  place.dataset['ready'] = '';
}
