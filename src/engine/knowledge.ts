/**
 * The compiled knowledge that the engine reads: plain JSON, every reference checked by the compiler, no prose but titles.
 * Written by `src/model/compile-knowledge.ts`, shipped to the browser as it is.
 */
import type { EngineState } from './plan/model.ts';

/** A probability in [0.005, 0.995] where it is used for an update (the compiler clamps). */
export type Probability = number;

/** For each trait, the values under which a thing exists at all: `{ ignition: ['waste-spark'] }`. Empty: always. */
export type Needs = Readonly<Record<string, readonly string[]>>;

export interface Money {
  /** Currency units (US dollars in the shipped content). */
  readonly low: number;
  readonly high: number;
}

export interface Work {
  readonly attendedMinutes: number;
  readonly waitingMinutes: number;
  /** Consumables of one performance; parts of a repair are priced in `money` too. */
  readonly money: number;
  readonly tools: readonly string[];
  readonly setUps: readonly string[];
  readonly engineState: EngineState | 'running';
}

export interface FamilyFacts {
  readonly id: string;
  readonly title: string;
  /** Share of this family among all cars with a lamp on: used when there is no code. */
  readonly commonness: number;
  /** What a car must have for these codes to be stored at all. */
  readonly needs: Needs;
  /** P("none of these" | family). Never zero. */
  readonly remainder: Probability;
  /** P(cause | family), normalised to sum to 1 - remainder. */
  readonly shares: Readonly<Record<string, number>>;
  /** All-in cost of handing the car over. */
  readonly handOverMoney: number;
  readonly handOverAttendedMinutes: number;
}

/** How fuel trims look under a cause: percent, normal distributions. */
export interface TrimSignature {
  readonly id: string;
  readonly title: string;
  /** Total trim (short + long) at warm idle. */
  readonly atIdle: { readonly meanPercent: number; readonly sdPercent: number };
  /** Total trim at 2,500 rpm minus at idle. */
  readonly change: { readonly meanPercent: number; readonly sdPercent: number };
}

/** What a fault reaches: one cylinder, a coil pair, a bank, ... and the pattern of codes that it then leaves. */
export interface ScopeFacts {
  readonly id: string;
  readonly title: string;
  /** P(pattern of misfiring cylinders | scope), over `CylinderPattern`; sums to 1. */
  readonly cylinderPatterns: Readonly<Record<string, number>>;
  /** P(pattern of banks | scope), over `one-bank`, `both-banks`; sums to 1. */
  readonly bankPatterns: Readonly<Record<string, number>>;
}

export interface RepairFacts extends Work {
  readonly title: string;
  /** Time to prove at once that the fault is gone (clear, idle, short drive). */
  readonly verifyMinutes: number;
  readonly holds: Probability;
  /** P(this repair removes that other cause | it is the cause). */
  readonly alsoFixes: Readonly<Record<string, number>>;
  /** Worth trying before the cause is confirmed (clean-and-see). */
  readonly tryAsTest: boolean;
  /** Only for a professional: the planner may not propose it. */
  readonly professionalOnly: boolean;
  readonly spoils: readonly string[];
}

export interface CauseFacts {
  readonly id: string;
  readonly title: string;
  /** Mixture over scopes; sums to 1. */
  readonly scope: Readonly<Record<string, number>>;
  readonly needs: Needs;
  /** How its rate moves with mileage. */
  readonly ageing: 'wears-out' | 'steady' | 'fails-early';
  readonly shows: Readonly<Record<string, Probability>>;
  readonly conditions: Readonly<Record<string, Probability>>;
  /** Times as likely as usual after this work was the last work on the car. */
  readonly recentWork: Readonly<Record<string, number>>;
  readonly trims: string | null;
  /** Parts whose replacement removes this cause. */
  readonly parts: readonly string[];
  /** P(the fault is not there while the car stands in the garage). */
  readonly hidden: number;
  /** P(the code of a further circuit of the family is set too | this cause): what the circuits share. Left out: none. */
  readonly otherCircuits?: number;
  readonly repair: RepairFacts;
}

export interface OutcomeFacts {
  readonly id: string;
  readonly title: string;
}

export interface CheckFacts extends Work {
  readonly id: string;
  readonly title: string;
  readonly after: readonly string[];
  /** Evidence of a case that says the same as this check: when it was given, the check is left out. */
  readonly sameAs: readonly ('trims' | 'freeze-frame')[];
  readonly needs: Needs;
  readonly outcomes: readonly OutcomeFacts[];
  /** likelihood[cause][outcome]; causes not listed have `otherwise`. */
  readonly likelihood: Readonly<Record<string, readonly number[]>>;
  readonly otherwise: readonly number[];
  readonly repeats: boolean;
  /** Makes a hidden fault appear (wiggle, heat, water mist, road load). */
  readonly provokes: boolean;
}

export interface SymptomFacts {
  readonly id: string;
  readonly title: string;
  /** With it the engine cannot be made to run: checks on a running engine fall away. */
  readonly engineDoesNotRun?: boolean;
  /** P(symptom | a cause that does not list it). */
  readonly otherwise: Probability;
}

export interface ConditionFacts extends SymptomFacts {
  /** Freeze-frame bounds that all must hold for the condition to be present; empty: only by asking. */
  readonly freezeFrame: Readonly<Record<string, { readonly above?: number; readonly below?: number }>>;
}

export interface TraitFacts {
  readonly id: string;
  readonly title: string;
  /** P(value) on an older petrol car, before anything is known; sums to 1. */
  readonly values: Readonly<Record<string, number>>;
  /** Only the age band: for each value, factors on causes by how they age. Empty elsewhere. */
  readonly ageing: Readonly<Record<string, Readonly<Record<CauseFacts['ageing'], number>>>>;
}

export interface PartFacts {
  readonly id: string;
  readonly title: string;
  readonly price: Money;
  /** P(the new part is bad or the wrong one). */
  readonly earlyFailure: Probability;
  /** Work that fitting it implies: an id of recentWork, or null. */
  readonly work: string | null;
}

export interface ToolFacts {
  readonly id: string;
  readonly title: string;
  readonly owned: boolean;
  /** Cheapest way to have it for this job: buy, borrow or hire. */
  readonly money: number;
}

export interface SetUpFacts {
  readonly id: string;
  readonly title: string;
  readonly attendedMinutes: number;
  readonly waitingMinutes: number;
  readonly money: number;
  readonly tools: readonly string[];
  /** Set-ups that this one stands on. */
  readonly setUps: readonly string[];
}

export interface CodeFacts {
  readonly id: string;
  readonly title: string;
  readonly family: string;
  /** Times as likely as the family's codes in general, for a cause. */
  readonly evidence: Readonly<Record<string, number>>;
  readonly cylinder: number | null;
  readonly bank: number | null;
  /** The plug and wires that the code speaks of, where it speaks of any. */
  readonly circuit?: string;
}

export interface Knowledge {
  /** Hash of the content that this was compiled from. */
  readonly hash: string;
  readonly families: Readonly<Record<string, FamilyFacts>>;
  readonly causes: Readonly<Record<string, CauseFacts>>;
  readonly checks: Readonly<Record<string, CheckFacts>>;
  readonly codes: Readonly<Record<string, CodeFacts>>;
  readonly symptoms: Readonly<Record<string, SymptomFacts>>;
  readonly conditions: Readonly<Record<string, ConditionFacts>>;
  readonly recentWork: Readonly<Record<string, { readonly id: string; readonly title: string }>>;
  readonly parts: Readonly<Record<string, PartFacts>>;
  readonly traits: Readonly<Record<string, TraitFacts>>;
  readonly scopes: Readonly<Record<string, ScopeFacts>>;
  readonly trimSignatures: Readonly<Record<string, TrimSignature>>;
  readonly tools: Readonly<Record<string, ToolFacts>>;
  readonly setUps: Readonly<Record<string, SetUpFacts>>;
}
