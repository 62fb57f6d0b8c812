import type { CheckAction, RepairAction, TroubleshootingModel } from './model.ts';

/**
 * Where a job stands, as plain data: what has been done, what is paid, the belief. The planner's hot paths keep the
 * same facts in typed arrays (`instance.ts`); everything that evaluates or explains a policy uses this plain form.
 */
export interface Job {
  /** Unnormalised: belief[h] = P(hypothesis h and all results so far). Sums to the chance of being here. */
  readonly belief: readonly number[];
  /** Performances of each check since the start or since a repair spoiled it. */
  readonly performed: readonly number[];
  /** Whether each check was ever done: that is what precedence asks. */
  readonly everDone: readonly boolean[];
  readonly tried: readonly boolean[];
  readonly paid: readonly boolean[];
  readonly warm: boolean;
}

/** The job at the start of the model. A check listed n times in `checksDone` counts as performed n times. */
export function startJob(model: TroubleshootingModel): Job {
  const performed = model.checks.map(() => 0);
  for (const check of model.checksDone) performed[check] = (performed[check] ?? 0) + 1;
  const within = (list: readonly number[]) => (_: unknown, index: number) => list.includes(index);
  return {
    belief: model.prior,
    performed,
    everDone: performed.map((count) => count > 0),
    tried: model.repairs.map(within(model.repairsTried)),
    paid: model.setUpCosts.map(within(model.setUpsDone)),
    warm: model.startsWarm,
  };
}

/** Chance of being here, seen from the start of the model. */
export function mass(job: Job): number {
  let sum = 0;
  for (const weight of job.belief) sum += weight;
  return sum;
}

export function performancesAllowed(check: CheckAction): number {
  return check.repeats ? check.maxPerformances : 1;
}

export function checkIsOpen(model: TroubleshootingModel, job: Job, check: number): boolean {
  const action = at(model.checks, check);
  return at(job.performed, check) < performancesAllowed(action) && action.after.every((before) => at(job.everDone, before));
}

export function repairIsOpen(model: TroubleshootingModel, job: Job, repair: number): boolean {
  return !at(job.tried, repair) && at(model.repairs, repair).after.every((before) => at(job.everDone, before));
}

/** Own cost, set-ups not yet paid and a change of engine state. */
export function costNow(model: TroubleshootingModel, job: Job, action: CheckAction | RepairAction): number {
  let cost = action.cost;
  for (const setUp of new Set(action.setUps)) if (!at(job.paid, setUp)) cost += at(model.setUpCosts, setUp);
  if (action.engineState === 'cold' && job.warm) cost += model.coolDownCost;
  if (action.engineState === 'warm' && !job.warm) cost += model.warmUpCost;
  return cost;
}

/** The job after each outcome of a check; the belief of an impossible outcome sums to 0. */
export function afterCheck(model: TroubleshootingModel, job: Job, check: number): Job[] {
  const action = at(model.checks, check);
  const performed = job.performed.slice();
  performed[check] = at(performed, check) + 1;
  const everDone = job.everDone.slice();
  everDone[check] = true;
  const outcomes = action.likelihood[0]?.length ?? 0;
  const common = { ...prepared(job, action), performed, everDone };
  return Array.from({ length: outcomes }, (_, outcome) => {
    const belief = new Array<number>(job.belief.length);
    for (let h = 0; h < belief.length; h++) {
      const weight = job.belief[h] as number;
      belief[h] = weight > 0 ? weight * at(at(action.likelihood, h), outcome) : 0;
    }
    return { ...common, belief };
  });
}

/** The job after a repair that did not hold or was not the right one. */
export function afterFailedRepair(model: TroubleshootingModel, job: Job, repair: number): Job {
  const action = at(model.repairs, repair);
  const tried = job.tried.slice();
  tried[repair] = true;
  const belief = job.belief.slice();
  for (const h of fixedBy(action)) belief[h] = at(belief, h) * (1 - at(action.fixes, h));
  return {
    ...prepared(job, action),
    tried,
    performed:
      action.spoils.length === 0 ? job.performed : job.performed.map((count, index) => (action.spoils.includes(index) ? 0 : count)),
    belief,
  };
}

const fixedHypotheses = new WeakMap<RepairAction, readonly number[]>();

/** Hypotheses that a repair may fix: a few of many, and asked for at each step of long sequences. */
export function fixedBy(repair: RepairAction): readonly number[] {
  let found = fixedHypotheses.get(repair);
  if (!found) {
    found = repair.fixes.flatMap((chance, h) => (chance > 0 ? [h] : []));
    fixedHypotheses.set(repair, found);
  }
  return found;
}

function prepared(job: Job, action: CheckAction | RepairAction): Job {
  return {
    ...job,
    paid: action.setUps.every((setUp) => job.paid[setUp]) ? job.paid : job.paid.map((paid, index) => paid || action.setUps.includes(index)),
    warm: action.engineState === 'any' ? job.warm : action.engineState === 'warm',
  };
}

/** An element that the caller knows to exist; a missing one is a programmer's error. */
export function at<T>(list: ArrayLike<T>, index: number): T {
  const element = list[index];
  if (element === undefined) throw new RangeError(`no element ${index} in a list of ${list.length}`);
  return element;
}
