/** The jobs of this device that have not ended, on the first page. Fetched only where the device keeps any. */

import { fragmentOfJob } from '../job/keep/address.ts';
import { deviceStore } from '../job/keep/device.ts';
import type { JobRecord } from '../job/keep/jobs.ts';
import { isOpen, jobIn, mostListed, noteOpenJobs } from '../job/keep/open-jobs.ts';
import type { Job } from '../job/state/job.ts';

const dayAndTime = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', hour: 'numeric', minute: '2-digit' });

/** Fills the list in `place`, and has its room kept for the next visit. Without open jobs there is none. */
export async function listOpenJobs(place: HTMLElement): Promise<void> {
  const records = await (await deviceStore()).list();
  const open = records
    .flatMap((record) => {
      const job = jobIn(record);
      return isOpen(job) ? [{ record, job }] : [];
    })
    .sort((a, b) => b.record.savedAt - a.record.savedAt)
    .slice(0, mostListed);
  noteOpenJobs(open.length);
  place.querySelector('ul')!.replaceChildren(...open.map(({ record, job }) => line(record, job)));
  if (open.length > 0) document.documentElement.dataset['jobs'] = String(open.length);
  else delete document.documentElement.dataset['jobs'];
}

function line(record: JobRecord, job: Partial<Job>): HTMLLIElement {
  const codes = job.inputs?.codes?.join(' ') ?? '';
  const done = job.timeline?.length ?? 0;
  const link = document.createElement('a');
  link.href = `/job/${fragmentOfJob(record.id)}`;
  const name = document.createElement('b');
  name.textContent = record.name || codes || 'Job without a name';
  const how = document.createElement('span');
  how.className = 'quiet';
  how.textContent = [
    record.name && codes,
    done === 0 ? 'nothing answered yet' : `${done} answered`,
    `last touched ${dayAndTime.format(record.savedAt)}`,
  ]
    .filter(Boolean)
    .join(' · ');
  link.append(name, how);
  const item = document.createElement('li');
  item.append(link);
  return item;
}
