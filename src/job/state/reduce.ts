/** Job + action -> job. Pure: the time comes with the action. */
import type { FreezeFrame, Presence, TrimReadings } from '../../engine/case.ts';
import { codesOf, readReply } from '../../engine/reply.ts';
import type { Answer, Entry, Inputs, Job, Proof, ReplacementTime, UnitSystem } from './job.ts';

export type Action =
  | { readonly type: 'name'; readonly name: string }
  | { readonly type: 'codes'; readonly text: string }
  | { readonly type: 'trait'; readonly trait: string; readonly value: string | null }
  | { readonly type: 'cylinders'; readonly cylinders: number | null }
  | { readonly type: 'firing-order'; readonly order: readonly number[]; readonly bank1: readonly number[] }
  | { readonly type: 'recent-work'; readonly id: string; readonly on: boolean }
  | { readonly type: 'symptom'; readonly id: string; readonly presence: Presence | null }
  | { readonly type: 'condition'; readonly id: string; readonly presence: Presence | null }
  | { readonly type: 'freeze-frame'; readonly key: keyof FreezeFrame; readonly value: number | null }
  | { readonly type: 'trim'; readonly key: keyof TrimReadings; readonly value: number | null }
  | { readonly type: 'replaced'; readonly part: string; readonly when: ReplacementTime | null }
  | { readonly type: 'tool'; readonly id: string; readonly on: boolean }
  | { readonly type: 'hourly-rate'; readonly rate: number | null }
  | { readonly type: 'engine-warm'; readonly warm: boolean | null }
  | { readonly type: 'model-year'; readonly year: number | null }
  | { readonly type: 'units'; readonly units: UnitSystem }
  | { readonly type: 'answer'; readonly answer: Answer; readonly at: number; readonly note?: string }
  | { readonly type: 'revise'; readonly id: number; readonly answer: Answer; readonly note?: string }
  | { readonly type: 'remove'; readonly id: number }
  | { readonly type: 'proof'; readonly change: Partial<Proof> }
  | { readonly type: 'tick'; readonly line: string; readonly on: boolean };

/** The job after an action; the same object when nothing changes. */
export function reduce(job: Job, action: Action): Job {
  switch (action.type) {
    case 'name':
      return action.name === job.name ? job : { ...job, name: action.name.slice(0, 120) };
    case 'answer':
      return {
        ...job,
        timeline: [...job.timeline, { ...action.answer, id: job.nextEntry, at: action.at, note: action.note ?? '' } as Entry],
        nextEntry: job.nextEntry + 1,
        proof: startsProof(action.answer) ? { ...job.proof, clean: 0, ticked: [] } : job.proof,
      };
    case 'revise':
      return job.timeline.some((entry) => entry.id === action.id)
        ? {
            ...job,
            timeline: job.timeline.map((entry) =>
              entry.id === action.id ? ({ ...action.answer, id: entry.id, at: entry.at, note: action.note ?? entry.note } as Entry) : entry,
            ),
          }
        : job;
    case 'remove': {
      const timeline = job.timeline.filter((entry) => entry.id !== action.id);
      return timeline.length === job.timeline.length ? job : { ...job, timeline };
    }
    case 'proof':
      return { ...job, proof: { ...job.proof, ...action.change } };
    case 'tick':
      return { ...job, proof: { ...job.proof, ticked: toggled(job.proof.ticked, action.line, action.on) } };
    default: {
      const inputs = reduceInputs(job.inputs, action);
      return inputs === job.inputs ? job : { ...job, inputs };
    }
  }
}

/** A new repair starts a new clock. */
const startsProof = (answer: Answer): boolean => answer.kind === 'repair' && answer.outcome === 'gone';

type InputAction = Exclude<Action, { type: 'name' | 'answer' | 'revise' | 'remove' | 'proof' | 'tick' }>;

function reduceInputs(inputs: Inputs, action: InputAction): Inputs {
  switch (action.type) {
    case 'codes':
      return { ...inputs, codesText: action.text, codes: codesOf(readReply(action.text)) };
    case 'trait':
      return { ...inputs, traits: withKey(inputs.traits, action.trait, action.value) };
    case 'cylinders':
      // An order of another length no longer fits.
      return action.cylinders === inputs.cylinders ? inputs : { ...inputs, cylinders: action.cylinders, firingOrder: [], bank1: [] };
    case 'firing-order':
      return { ...inputs, firingOrder: action.order, bank1: action.bank1 };
    case 'recent-work':
      return { ...inputs, recentWork: toggled(inputs.recentWork, action.id, action.on) };
    case 'symptom':
      return { ...inputs, symptoms: withKey(inputs.symptoms, action.id, action.presence) };
    case 'condition':
      return { ...inputs, conditions: withKey(inputs.conditions, action.id, action.presence) };
    case 'freeze-frame':
      return { ...inputs, freezeFrame: withKey(inputs.freezeFrame as Record<string, number>, action.key, action.value) };
    case 'trim':
      return { ...inputs, trims: withKey(inputs.trims as Record<string, number>, action.key, action.value) };
    case 'replaced': {
      const others = inputs.replaced.filter(({ part }) => part !== action.part);
      return { ...inputs, replaced: action.when === null ? others : [...others, { part: action.part, when: action.when }] };
    }
    case 'tool':
      return { ...inputs, tools: toggled(inputs.tools, action.id, action.on) };
    case 'hourly-rate':
      return { ...inputs, hourlyRate: action.rate };
    case 'engine-warm':
      return { ...inputs, engineIsWarm: action.warm };
    case 'model-year':
      return { ...inputs, modelYear: action.year };
    case 'units':
      return { ...inputs, units: action.units };
  }
}

function withKey<Value>(record: Readonly<Record<string, Value>>, key: string, value: Value | null): Record<string, Value> {
  const rest = Object.fromEntries(Object.entries(record).filter(([other]) => other !== key));
  return value === null ? rest : { ...rest, [key]: value };
}

const toggled = (list: readonly string[], id: string, on: boolean): readonly string[] => {
  const others = list.filter((other) => other !== id);
  return on ? [...others, id] : others;
};
