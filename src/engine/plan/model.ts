/**
 * The troubleshooting problem that the planner solves, as plain data.
 *
 * One hypothesis is true. The person pays for actions until the fault is gone: checks (imperfect, done once unless they
 * repeat), repair attempts (verified at once, may not hold) and handing over to a professional (ends the job at a
 * stated cost). Set-ups are paid once a job. Costs are in one currency; see `formulate.ts` for how minutes become money.
 *
 * Sources of the model: Heckerman, Breese & Rommelse 1994 (MSR-TR-94-07); Langseth & Jensen 2003; Ottosen 2012.
 */

/** What the engine must be like for an action. `running` implies warm; the planner sees warm. */
export type EngineState = 'any' | 'cold' | 'warm';

export interface CheckAction {
  readonly id: string;
  /** Cost of one performance, without its set-ups and without a change of engine state. >= 0. */
  readonly cost: number;
  /** Indices into `setUpCosts`; each is paid the first time that any action needs it. */
  readonly setUps: readonly number[];
  /** Indices of checks that must have been done before this one. No cycles. */
  readonly after: readonly number[];
  readonly engineState: EngineState;
  /** likelihood[h][o] = P(outcome o | hypothesis h); every row sums to 1. */
  readonly likelihood: readonly (readonly number[])[];
  /**
   * false: a second performance would show the same result again (the noise persists), so it is done at most once.
   * true: the results of separate performances are independent given the hypothesis; at most `maxPerformances`.
   */
  readonly repeats: boolean;
  readonly maxPerformances: number;
}

export interface RepairAction {
  readonly id: string;
  /** Parts, time and the verification that follows. >= 0. */
  readonly cost: number;
  readonly setUps: readonly number[];
  /** Indices of checks that must have been done before this repair is tried. */
  readonly after: readonly number[];
  readonly engineState: EngineState;
  /**
   * fixes[h] = P(the fault is gone afterwards | hypothesis h), in [0, 1]. The verification tells without error whether
   * it is. Each repair is tried at most once. A failed attempt leaves hypothesis h with weight p(h) * (1 - fixes[h]).
   */
  readonly fixes: readonly number[];
  /** Checks whose results this repair spoils: after a failed attempt they may be done again, with a fresh draw. */
  readonly spoils: readonly number[];
}

export interface TroubleshootingModel {
  /** P(hypothesis); sums to 1. A hypothesis that no repair fixes is removed only by handing over. */
  readonly prior: readonly number[];
  readonly checks: readonly CheckAction[];
  readonly repairs: readonly RepairAction[];
  readonly setUpCosts: readonly number[];
  /** Cost of handing the car to a professional: all-in, ends the job, always possible. > 0. */
  readonly handOverCost: number;
  /** Paid when a cold action follows while the engine is warm, and the reverse. Each flips the state. >= 0. */
  readonly coolDownCost: number;
  readonly warmUpCost: number;
  readonly startsWarm: boolean;
  /** Where the job stands already (a job in mid-course); all empty or zero at the start. */
  readonly setUpsDone: readonly number[];
  readonly checksDone: readonly number[];
  readonly repairsTried: readonly number[];
}

/** One decision of a policy, with what follows each result. Indices point into the model. */
export type PolicyNode =
  | {
      readonly kind: 'check';
      readonly action: number;
      /** Paid at this node: own cost, set-ups not yet paid, change of engine state. */
      readonly cost: number;
      /** One per outcome; null where the outcome has probability 0 here. */
      readonly next: readonly (PolicyNode | null)[];
    }
  | {
      readonly kind: 'repair';
      readonly action: number;
      readonly cost: number;
      /** What follows when the fault is still there; null where that has probability 0. */
      readonly next: PolicyNode | null;
    }
  | { readonly kind: 'hand-over'; readonly cost: number };

export interface Plan {
  readonly policy: PolicyNode;
  /** Exact expected cost of `policy`. */
  readonly expectedCost: number;
  /** Proven: no policy of this model costs less. */
  readonly lowerBound: number;
  /** (expectedCost - lowerBound) / lowerBound; 0 when proven optimal. */
  readonly gap: number;
  /** Search nodes expanded (a deterministic measure of work). */
  readonly nodes: number;
}

export interface Budget {
  /** Upper limit on search nodes: deterministic, so that builds are reproducible. */
  readonly nodes: number;
  /** Optional extra stop, asked between expansions: lets a worker answer in time. Returns true to stop. */
  readonly stop?: () => boolean;
}
