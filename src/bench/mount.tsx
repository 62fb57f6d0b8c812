/** Wakes the calculator that the page was sent with: same markup, same data, now it answers. */
import { type ComponentType, hydrate } from 'preact';
import type { Case } from '../engine/case.ts';
import { OpenJob } from './view/parts.tsx';

/** @param openJob how a case travels to the job page; the page knows, the bench does not. */
export function wakeBench<Data>(View: ComponentType<{ readonly data: Data }>, openJob: (situation: Case) => void): void {
  const place = document.querySelector<HTMLElement>('[data-bench]');
  if (!place) return;
  const data = JSON.parse(document.getElementById('bench-data')?.textContent ?? 'null') as Data;
  hydrate(
    <OpenJob.Provider value={openJob}>
      <View data={data} />
    </OpenJob.Provider>,
    place,
  );
  place.dataset['ready'] = '';
}
