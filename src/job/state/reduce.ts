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
  /** What another job knows (figures of the bench, a case file) goes into this one; where both say something the other one counts. */
  | { readonly type: 'given'; readonly from: Job; readonly at: number }
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
    case 'given':
      return {
        ...job,
        inputs: withGiven(job.inputs, action.from.inputs),
        timeline: [
          ...job.timeline,
          ...action.from.timeline.map((entry, index) => ({ ...entry, id: job.nextEntry + index, at: action.at })),
        ],
        nextEntry: job.nextEntry + action.from.timeline.length,
      };
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

type InputAction = Exclude<Action, { type: 'name' | 'answer' | 'revise' | 'remove' | 'given' | 'proof' | 'tick' }>;

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

function withGiven(mine: Inputs, given: Inputs): Inputs {
  const newCodes = given.codes.filter((code) => !mine.codes.includes(code));
  const both = (a: readonly string[], b: readonly string[]) => [...new Set([...a, ...b])];
  const ordered = given.firingOrder.length > 0 ? given : mine;
  return {
    ...mine,
    codesText: [mine.codesText.trim(), ...newCodes].filter(Boolean).join(', '),
    codes: [...mine.codes, ...newCodes],
    traits: { ...mine.traits, ...given.traits },
    cylinders: given.cylinders ?? mine.cylinders,
    firingOrder: ordered.firingOrder,
    bank1: ordered.bank1,
    recentWork: both(mine.recentWork, given.recentWork),
    symptoms: { ...mine.symptoms, ...given.symptoms },
    conditions: { ...mine.conditions, ...given.conditions },
    freezeFrame: { ...mine.freezeFrame, ...given.freezeFrame },
    trims: { ...mine.trims, ...given.trims },
    replaced: [...mine.replaced.filter(({ part }) => given.replaced.every((other) => other.part !== part)), ...given.replaced],
    tools: both(mine.tools, given.tools),
    hourlyRate: given.hourlyRate ?? mine.hourlyRate,
    engineIsWarm: given.engineIsWarm ?? mine.engineIsWarm,
  };
}

function withKey<Value>(record: Readonly<Record<string, Value>>, key: string, value: Value | null): Record<string, Value> {
  const rest = Object.fromEntries(Object.entries(record).filter(([other]) => other !== key));
  return value === null ? rest : { ...rest, [key]: value };
}

const toggled = (list: readonly string[], id: string, on: boolean): readonly string[] => {
  const others = list.filter((other) => other !== id);
  return on ? [...others, id] : others;
};
