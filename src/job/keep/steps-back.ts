/** Undo and redo that survive a reload of the window: put by when the page goes, taken up when the same job comes back unchanged. */
import { exportText } from '../saved/form.ts';
import type { readSavedText } from '../saved/saved.ts';
import type { History, Job } from '../state.ts';

/** Steps in each direction that are put by; a long job takes some kilobytes a step. */
const mostSteps = 30;
const place = 'steps-back';

/** Puts the steps round `history.present` by; a window that refuses keeps none. */
export function putStepsBy(history: History, content: string, storage: Storage): void {
  const texts = (jobs: readonly Job[]) => jobs.map((job) => exportText(job, content));
  const { past, present, future } = history;
  try {
    storage.setItem(
      place,
      JSON.stringify({
        present: exportText(present, content),
        past: texts(past.slice(-mostSteps)),
        future: texts(future.slice(0, mostSteps)),
      }),
    );
  } catch {
    // Without room there is no way back over a reload, and nothing else is lost.
  }
}

/** The steps round a job whose kept text is `text`; null when they are of another one, or not whole. */
export function stepsPutBy(text: string, storage: Storage, read: typeof readSavedText): Pick<History, 'past' | 'future'> | null {
  try {
    const put = JSON.parse(storage.getItem(place) ?? 'null') as Readonly<Record<string, unknown>> | null;
    if (put?.['present'] !== text) return null;
    const jobs = (texts: unknown) =>
      (texts as readonly string[]).map((one) => {
        const reading = read(one);
        if (!reading.ok) throw new Error(reading.says);
        return reading.saved.job;
      });
    return { past: jobs(put['past']), future: jobs(put['future']) };
  } catch {
    return null;
  }
}
