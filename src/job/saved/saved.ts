/** Text -> job: import, links, and what the device keeps. */
import type { Case } from '../../engine/case.ts';
import { type Entry, emptyInputs, type Job, newJob } from '../state/job.ts';
import { exportText, longestFile, type SavedJob, saved, savedForm, savedVersion } from './form.ts';
import { type Schema, savedSchema } from './schema.ts';
import { validate } from './validate.ts';

export type Reading =
  | { readonly ok: true; readonly saved: SavedJob; readonly note: string | null }
  | { readonly ok: false; readonly why: 'no-json' | 'no-job' | 'newer' | 'faulty' | 'too-large'; readonly says: string };

export { exportText, longestFile, type SavedJob, saved };

/**
 * Steps from each older form to the next, by version. Version 0 is a case file, as the command line reads it.
 * A step may assume nothing about the value but its version; what it makes is validated at the end.
 */
const migrations: readonly ((value: Readonly<Record<string, unknown>>) => unknown)[] = [fromCase];

/** Text of a file, a link or a record of the device -> a job, or one sentence that says what is wrong. */
export function readSavedText(text: string): Reading {
  if (text.length > longestFile) return { ok: false, why: 'too-large', says: 'The file is far larger than any job. Nothing was changed.' };
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { ok: false, why: 'no-json', says: 'The file is not JSON, or it is cut off. Nothing was changed.' };
  }
  return readSaved(value);
}

export function readSaved(value: unknown): Reading {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return { ok: false, why: 'no-job', says: 'The file is JSON but no saved job. Nothing was changed.' };
  const record = value as Readonly<Record<string, unknown>>;
  const version = versionOf(record);
  if (version === null) return { ok: false, why: 'no-job', says: 'The file is JSON but no saved job. Nothing was changed.' };
  if (version > savedVersion)
    return {
      ok: false,
      why: 'newer',
      says: `The job was saved in form ${version}, this page reads up to ${savedVersion}. Load the page anew, then open it. Nothing was changed.`,
    };
  let present: unknown = record;
  try {
    for (const step of migrations.slice(version)) present = step(present as Readonly<Record<string, unknown>>);
  } catch {
    return { ok: false, why: 'faulty', says: 'The job is of an older form and could not be carried over. Nothing was changed.' };
  }
  const faults = [...validate(present, savedSchema as Schema), ...(version === 0 ? [] : contradictions(present))];
  if (faults.length > 0) return { ok: false, why: 'faulty', says: `The job cannot be read: ${faults[0]} Nothing was changed.` };
  return {
    ok: true,
    saved: present as SavedJob,
    note: version < savedVersion ? 'It was of an older form and has been carried over.' : null,
  };
}

const caseKeys = ['codes', 'engine', 'symptoms', 'conditions', 'freezeFrame', 'trims', 'replaced', 'results', 'repaired', 'tools'];

function versionOf(record: Readonly<Record<string, unknown>>): number | null {
  if (record['form'] === savedForm) return Number.isInteger(record['version']) ? (record['version'] as number) : null;
  return record['form'] === undefined && caseKeys.some((key) => Object.hasOwn(record, key)) ? 0 : null;
}

/** What the schema cannot say. */
function contradictions(value: unknown): readonly string[] {
  const job = (value as { job?: Job }).job;
  if (!Array.isArray(job?.timeline)) return [];
  const numbers = job.timeline.map((entry) => entry?.id);
  if (new Set(numbers).size !== numbers.length) return ['Two entries of job.timeline have the same number.'];
  if (numbers.some((number) => number >= job.nextEntry)) return ['job.nextEntry is not above the numbers of job.timeline.'];
  return [];
}

/** A case file carries no times, names or readings. */
function fromCase(value: Readonly<Record<string, unknown>>): SavedJob {
  const situation = value as Case;
  const base = newJob('imported', 0);
  const { cylinders, firingOrder, bank1, recentWork, ...traits } = situation.engine ?? {};
  const entries: Record<string, unknown>[] = [
    ...(situation.results ?? []).map(({ check, outcome }) => ({ kind: 'result', check, outcome, reading: null, before: false })),
    ...(situation.repaired ?? []).map((cause) => ({ kind: 'repair', cause, outcome: 'still-there' })),
    ...(situation.notPossible ?? []).map((action) => ({ kind: 'cannot', action })),
  ];
  return saved(
    {
      ...base,
      inputs: {
        ...emptyInputs,
        codesText: (situation.codes ?? []).join(', '),
        codes: situation.codes ?? [],
        traits: Object.fromEntries(
          Object.entries(traits).filter(([, known]) => typeof known === 'string' && known !== 'unknown'),
        ) as Record<string, string>,
        cylinders: cylinders ?? null,
        firingOrder: firingOrder ?? [],
        bank1: bank1 ?? [],
        recentWork: recentWork ?? [],
        symptoms: situation.symptoms ?? {},
        conditions: situation.conditions ?? {},
        freezeFrame: situation.freezeFrame ?? {},
        trims: situation.trims ?? {},
        replaced: (situation.replaced ?? []).map((part) => ({ part, when: 'since-the-code' as const })),
        tools: situation.tools ?? [],
        hourlyRate: situation.hourlyRate ?? null,
        engineIsWarm: situation.engineIsWarm ?? null,
      },
      timeline: entries.map((entry, index) => ({ ...entry, id: index + 1, at: 0, note: '' }) as unknown as Entry),
      nextEntry: entries.length + 1,
    },
    '',
  );
}
