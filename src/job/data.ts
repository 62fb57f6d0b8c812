/** The compiled data that the page fetches from its own origin. */

import type { Knowledge } from '../engine/knowledge.ts';
import type { CheckCard, JobWords, RepairCard, SharedCards } from './card-types.ts';

export interface JobData {
  readonly knowledge: Knowledge;
  readonly words: JobWords;
  readonly shared: SharedCards;
}

async function json<Value>(path: string): Promise<Value> {
  const response = await fetch(path);
  if (!response.ok) throw new Error(`${path} answered ${response.status}`);
  return response.json() as Promise<Value>;
}

export async function loadJobData(): Promise<JobData> {
  const [knowledge, words, shared] = await Promise.all([
    json<Knowledge>('/data/job/knowledge.json'),
    json<JobWords>('/data/job/words.json'),
    json<SharedCards>('/data/job/shared.json'),
  ]);
  return { knowledge, words, shared };
}

const cards = new Map<string, Promise<unknown>>();

/** Cards are fetched once; one that failed is tried anew. */
function card<Card>(path: string): Promise<Card> {
  let found = cards.get(path) as Promise<Card> | undefined;
  if (!found) {
    found = json<Card>(path);
    found.catch(() => cards.delete(path));
    cards.set(path, found);
  }
  return found;
}

export const checkCard = (id: string): Promise<CheckCard> => card(`/data/job/checks/${id}.json`);
export const repairCard = (cause: string): Promise<RepairCard> => card(`/data/job/repairs/${cause}.json`);
