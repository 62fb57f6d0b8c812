/** One job on one car, as plain data: what is known about the car, what was done in which order, and how the proof stands. */
import type { FreezeFrame, Presence, TrimReadings } from '../../engine/case.ts';

/** When a part was replaced decides what that says: since the code came, just before it, or long before. */
export const replacementTimes = ['since-the-code', 'just-before', 'long-before'] as const;
export type ReplacementTime = (typeof replacementTimes)[number];

export interface Replacement {
  /** Id of a part. */
  readonly part: string;
  readonly when: ReplacementTime;
}

export const unitSystems = ['metric', 'customary'] as const;
export type UnitSystem = (typeof unitSystems)[number];

export interface Inputs {
  /** As typed or pasted, so that it can be shown back and mended. */
  readonly codesText: string;
  readonly codes: readonly string[];
  /** Trait id -> value id; a trait that is not there is not known. */
  readonly traits: Readonly<Record<string, string>>;
  readonly cylinders: number | null;
  /** Empty: not known. */
  readonly firingOrder: readonly number[];
  /** Cylinders of bank 1; empty: not known. */
  readonly bank1: readonly number[];
  readonly recentWork: readonly string[];
  readonly symptoms: Readonly<Record<string, Presence>>;
  readonly conditions: Readonly<Record<string, Presence>>;
  readonly freezeFrame: FreezeFrame;
  readonly trims: TrimReadings;
  readonly replaced: readonly Replacement[];
  /** Tools owned beside those that everybody has. */
  readonly tools: readonly string[];
  /** Null: the usual one. */
  readonly hourlyRate: number | null;
  /** Null: as the last step left it. */
  readonly engineIsWarm: boolean | null;
  readonly modelYear: number | null;
  readonly units: UnitSystem;
}

/** What an answer to a step says. */
export type Answer =
  | { readonly kind: 'result'; readonly check: string; readonly outcome: string; readonly reading: number | null; readonly before: boolean }
  /** Cannot be done here: a check, or the repair of a cause. */
  | { readonly kind: 'cannot'; readonly action: string }
  /** Put aside for now. */
  | { readonly kind: 'aside'; readonly action: string }
  /** The cause was seen, in whatever way; null: it is none of those listed. */
  | { readonly kind: 'found'; readonly cause: string | null }
  /** A repair was made: the fault is gone so far, or it is still there. Null: a repair of something not listed. */
  | { readonly kind: 'repair'; readonly cause: string | null; readonly outcome: 'gone' | 'still-there' }
  /** The code came back after a repair that had looked good. */
  | { readonly kind: 'returned'; readonly cause: string | null }
  | { readonly kind: 'ended'; readonly how: 'proven' | 'handed-over' | 'given-up' };

/** An answer in the list of what was done. */
export type Entry = Answer & {
  readonly id: number;
  /** Milliseconds since 1970. */
  readonly at: number;
  readonly note: string;
};

export const exposureUnits = ['kilometres', 'miles', 'hours', 'starts'] as const;
export type ExposureUnit = (typeof exposureUnits)[number];

export interface Proof {
  readonly unit: ExposureUnit;
  /** Times that the code came back before the repair, over `exposureBefore`. Null: not told. */
  readonly returnsBefore: number | null;
  readonly exposureBefore: number | null;
  /** Driven without the code since the repair. */
  readonly clean: number;
  /** Ticked lines of the proof: `clear`, `monitor:ID`, `relearn:0`. */
  readonly ticked: readonly string[];
}

export interface Job {
  readonly id: string;
  readonly name: string;
  readonly startedAt: number;
  readonly inputs: Inputs;
  readonly timeline: readonly Entry[];
  /** Number of the next entry: never used twice in a job. */
  readonly nextEntry: number;
  readonly proof: Proof;
}

export const emptyInputs: Inputs = {
  codesText: '',
  codes: [],
  traits: {},
  cylinders: null,
  firingOrder: [],
  bank1: [],
  recentWork: [],
  symptoms: {},
  conditions: {},
  freezeFrame: {},
  trims: {},
  replaced: [],
  tools: [],
  hourlyRate: null,
  engineIsWarm: null,
  modelYear: null,
  units: 'metric',
};

export const emptyProof: Proof = { unit: 'kilometres', returnsBefore: null, exposureBefore: null, clean: 0, ticked: [] };

export const newJob = (id: string, startedAt: number, name = ''): Job => ({
  id,
  name,
  startedAt,
  inputs: emptyInputs,
  timeline: [],
  nextEntry: 1,
  proof: emptyProof,
});
