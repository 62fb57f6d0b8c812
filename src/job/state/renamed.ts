/** Old ids in a saved job -> the ids that the content has now. */
import type { Answer, Entry, Job } from './job.ts';

/** For each kind of content, old id -> present id. */
export type RenamedIds = Readonly<Record<string, Readonly<Record<string, string>>>>;

/** The job with every renamed id replaced. Ids that are unknown altogether stay as they are: nothing is lost. */
export function withPresentIds(job: Job, renamed: RenamedIds): Job {
  const to = (kind: string) => (id: string) => (Object.hasOwn(renamed[kind] ?? {}, id) ? renamed[kind]![id]! : id);
  const [cause, check, symptom, condition, tool, part, work, trait] = [
    'causes',
    'checks',
    'symptoms',
    'conditions',
    'tools',
    'parts',
    'recent-work',
    'traits',
  ].map(to) as [Rename, Rename, Rename, Rename, Rename, Rename, Rename, Rename];
  const action = (id: string) => (cause(id) !== id ? cause(id) : check(id));
  const keys = <Value>(record: Readonly<Record<string, Value>>, rename: Rename) =>
    Object.fromEntries(Object.entries(record).map(([key, value]) => [rename(key), value]));
  const answer = (entry: Answer): Answer => {
    switch (entry.kind) {
      case 'result':
        return { ...entry, check: check(entry.check) };
      case 'cannot':
      case 'aside':
        return { ...entry, action: action(entry.action) };
      case 'found':
      case 'repair':
      case 'returned':
        return entry.cause === null ? entry : { ...entry, cause: cause(entry.cause) };
      default:
        return entry;
    }
  };
  const { inputs } = job;
  return {
    ...job,
    inputs: {
      ...inputs,
      traits: keys(inputs.traits, trait),
      symptoms: keys(inputs.symptoms, symptom),
      conditions: keys(inputs.conditions, condition),
      tools: inputs.tools.map(tool),
      replaced: inputs.replaced.map((replacement) => ({ ...replacement, part: part(replacement.part) })),
      recentWork: inputs.recentWork.map(work),
    },
    timeline: job.timeline.map((entry) => ({ ...entry, ...answer(entry) }) as Entry),
  };
}

type Rename = (id: string) => string;
