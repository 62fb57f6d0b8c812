/** The jobs of this device that have not ended, on the first page. Fetched only where the device keeps any. */
import { deviceStore } from '../job/keep/device.ts';
import type { JobRecord, JobStore } from '../job/keep/jobs.ts';
import type { Job } from '../job/state/job.ts';

/** Most that are listed; the job page lists all. */
const most = 5;

const dayAndTime = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

/** Fills `place` and shows it; leaves it hidden when no job is open. */
export async function listOpenJobs(place: HTMLElement): Promise<void> {
  const store = await deviceStore();
  const records = await store.list();
  const open = records
    .flatMap((record) => {
      const job = jobIn(record);
      return job && job.timeline?.at(-1)?.kind !== 'ended' ? [{ record, job }] : [];
    })
    .sort((a, b) => b.record.savedAt - a.record.savedAt);
  if (open.length === 0) return;
  const list = place.querySelector('ul')!;
  list.replaceChildren(...open.slice(0, most).map(({ record, job }, index) => line(store, record, job, index === 0)));
  place.hidden = false;
}

function line(store: JobStore, record: JobRecord, job: Partial<Job>, isLatest: boolean): HTMLLIElement {
  const codes = job.inputs?.codes?.join(' ') ?? '';
  const done = job.timeline?.length ?? 0;
  const link = document.createElement('a');
  link.href = '/job/';
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
  if (!isLatest) {
    // The job page opens what was touched last: choosing a job here is touching it.
    const choose = (event: MouseEvent) => {
      if (event.button > 1) return;
      event.preventDefault();
      const elsewhere = event.button === 1 || event.ctrlKey || event.metaKey || event.shiftKey;
      void touch(store, record).finally(() => (elsewhere ? open('/job/') : location.assign('/job/')));
    };
    link.addEventListener('click', choose);
    link.addEventListener('auxclick', choose);
  }
  const item = document.createElement('li');
  item.append(link);
  return item;
}

/** Writes the record as it is with the present time, and says so to other windows, as any writer of jobs does. */
async function touch(store: JobStore, { revision, ...record }: JobRecord): Promise<void> {
  const result = await store.put({ ...record, savedAt: Date.now() }, revision);
  if (result.kind !== 'written' || !('BroadcastChannel' in globalThis)) return;
  const channel = new BroadcastChannel('lampwise-jobs');
  channel.postMessage(record.id);
  channel.close();
}

/** What a record says, read with no more trust than a list needs; null when it cannot be read. */
function jobIn(record: JobRecord): Partial<Job> | null {
  try {
    return (JSON.parse(record.text) as { job?: Partial<Job> }).job ?? null;
  } catch {
    return null;
  }
}
