/** What runs on every page: the choice of paper, the offline copy, `/` to search, steps that open by their address. */

import { keepOffline } from './offline.ts';
import { openTarget } from './open-target.ts';
import { choosePaper } from './paper.ts';
import { readySearch } from './ready-search.ts';

choosePaper();
readySearch();
openTarget();
void keepOffline();
void findOpenJobs();
if (document.querySelector('[data-flowchart]')) void import('./flowchart.ts').then(({ addZoom }) => addZoom());

/** On the first page: reads the device's jobs, but makes no store on a device that never kept one. */
async function findOpenJobs(): Promise<void> {
  const place = document.querySelector<HTMLElement>('[data-open-jobs]');
  if (!place || !globalThis.indexedDB?.databases) return;
  try {
    // Also where there is no store any more: the room kept for its list goes.
    if (!(await indexedDB.databases()).some(({ name }) => name === 'lampwise')) {
      delete document.documentElement.dataset['jobs'];
      return;
    }
    await (await import('./open-jobs.ts')).listOpenJobs(place);
  } catch {
    // The device refuses to tell: the job page says so where it matters.
  }
}
