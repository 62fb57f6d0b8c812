import { performancesAllowed } from './job.ts';
import type { EngineState, TroubleshootingModel } from './model.ts';

/**
 * A model laid out in typed arrays for the planner's hot paths. Actions are numbered checks first, then repairs, then
 * handing over. Nothing here is changed after `compileInstance`.
 */
export interface Instance {
  readonly model: TroubleshootingModel;
  readonly hypotheses: number;
  readonly checks: number;
  readonly repairs: number;
  readonly setUps: number;
  /** checks + repairs: the number of handing over. */
  readonly handOver: number;
  readonly handOverCost: number;
  readonly outcomes: Int32Array;
  readonly mostOutcomes: number;
  /** Where the rows of a check begin in `likelihood`. */
  readonly likelihoodAt: Int32Array;
  /** [likelihoodAt[check] + outcome * hypotheses + hypothesis]. */
  readonly likelihood: Float64Array;
  /** Performances allowed of each check. */
  readonly allowed: Uint8Array;
  /** Repair r fixes hypotheses fixHypothesis[fixAt[r] .. fixAt[r+1]] with fixChance. */
  readonly fixAt: Int32Array;
  readonly fixHypothesis: Int32Array;
  readonly fixChance: Float64Array;
  /** By action (check or repair). */
  readonly cost: Float64Array;
  readonly setUpsOf: readonly Int32Array[];
  readonly afterOf: readonly Int32Array[];
  readonly engineOf: Uint8Array;
  /** By repair. */
  readonly spoils: readonly Int32Array[];
  readonly setUpCost: Float64Array;
  readonly coolDownCost: number;
  readonly warmUpCost: number;
  /** Offsets into a status: performances, ever done, tried, paid; the last byte is 1 when the engine is warm. */
  readonly everAt: number;
  readonly triedAt: number;
  readonly paidAt: number;
  readonly warmAt: number;
  readonly statusLength: number;
}

export const ANY = 0;
export const COLD = 1;
export const WARM = 2;

const ENGINE: Readonly<Record<EngineState, number>> = { any: ANY, cold: COLD, warm: WARM };

/** Lays the model out. @throws RangeError when a table of the model has the wrong shape. */
export function compileInstance(model: TroubleshootingModel): Instance {
  const n = model.prior.length;
  const checks = model.checks.length;
  const repairs = model.repairs.length;
  const setUps = model.setUpCosts.length;
  const outcomes = Int32Array.from(model.checks, (check) => check.likelihood[0]?.length ?? 0);
  const likelihoodAt = new Int32Array(checks);
  let length = 0;
  for (let check = 0; check < checks; check++) {
    likelihoodAt[check] = length;
    length += (outcomes[check] as number) * n;
  }
  const likelihood = new Float64Array(length);
  model.checks.forEach((check, index) => {
    if (check.likelihood.length !== n) throw new RangeError(`check ${check.id}: ${check.likelihood.length} rows for ${n} hypotheses`);
    check.likelihood.forEach((row, hypothesis) => {
      if (row.length !== outcomes[index]) throw new RangeError(`check ${check.id}: rows of unequal length`);
      row.forEach((chance, outcome) => {
        likelihood[(likelihoodAt[index] as number) + outcome * n + hypothesis] = chance;
      });
    });
  });
  const fixAt = new Int32Array(repairs + 1);
  const fixHypothesis: number[] = [];
  const fixChance: number[] = [];
  model.repairs.forEach((repair, index) => {
    if (repair.fixes.length !== n) throw new RangeError(`repair ${repair.id}: ${repair.fixes.length} chances for ${n} hypotheses`);
    repair.fixes.forEach((chance, hypothesis) => {
      if (chance <= 0) return;
      fixHypothesis.push(hypothesis);
      fixChance.push(chance);
    });
    fixAt[index + 1] = fixHypothesis.length;
  });
  const actions = [...model.checks, ...model.repairs];
  const everAt = checks;
  const triedAt = everAt + checks;
  const paidAt = triedAt + repairs;
  const warmAt = paidAt + setUps;
  return {
    model,
    hypotheses: n,
    checks,
    repairs,
    setUps,
    handOver: checks + repairs,
    handOverCost: model.handOverCost,
    outcomes,
    mostOutcomes: outcomes.reduce((most, count) => Math.max(most, count), 0),
    likelihoodAt,
    likelihood,
    allowed: Uint8Array.from(model.checks, performancesAllowed),
    fixAt,
    fixHypothesis: Int32Array.from(fixHypothesis),
    fixChance: Float64Array.from(fixChance),
    cost: Float64Array.from(actions, (action) => action.cost),
    setUpsOf: actions.map((action) => Int32Array.from(new Set(action.setUps))),
    afterOf: actions.map((action) => Int32Array.from(new Set(action.after))),
    engineOf: Uint8Array.from(actions, (action) => ENGINE[action.engineState]),
    spoils: model.repairs.map((repair) => Int32Array.from(new Set(repair.spoils))),
    setUpCost: Float64Array.from(model.setUpCosts),
    coolDownCost: model.coolDownCost,
    warmUpCost: model.warmUpCost,
    everAt,
    triedAt,
    paidAt,
    warmAt,
    statusLength: warmAt + 1,
  };
}

/** The status bytes at the start of the model. */
export function startStatus(instance: Instance): Uint8Array {
  const { model } = instance;
  const status = new Uint8Array(instance.statusLength);
  for (const check of model.checksDone) {
    status[check] = (status[check] as number) + 1;
    status[instance.everAt + check] = 1;
  }
  for (const repair of model.repairsTried) status[instance.triedAt + repair] = 1;
  for (const setUp of model.setUpsDone) status[instance.paidAt + setUp] = 1;
  status[instance.warmAt] = model.startsWarm ? 1 : 0;
  return status;
}

/** Whether an action may be done now: not used up, and what must come before it is done. */
export function isOpen(instance: Instance, status: Uint8Array, action: number): boolean {
  if (action < instance.checks) {
    if ((status[action] as number) >= (instance.allowed[action] as number)) return false;
  } else if (status[instance.triedAt + action - instance.checks]) return false;
  const after = instance.afterOf[action] as Int32Array;
  for (let i = 0; i < after.length; i++) if (!status[instance.everAt + (after[i] as number)]) return false;
  return true;
}

/** Own cost, set-ups not yet paid and a change of engine state. */
export function stepCost(instance: Instance, status: Uint8Array, action: number): number {
  let cost = instance.cost[action] as number;
  const setUps = instance.setUpsOf[action] as Int32Array;
  for (let i = 0; i < setUps.length; i++) {
    const setUp = setUps[i] as number;
    if (!status[instance.paidAt + setUp]) cost += instance.setUpCost[setUp] as number;
  }
  const engine = instance.engineOf[action] as number;
  if (engine === COLD && status[instance.warmAt]) cost += instance.coolDownCost;
  else if (engine === WARM && !status[instance.warmAt]) cost += instance.warmUpCost;
  return cost;
}

/** Marks an action as done (for a repair: as failed). Changes `status`. */
export function markDone(instance: Instance, status: Uint8Array, action: number): void {
  const setUps = instance.setUpsOf[action] as Int32Array;
  for (let i = 0; i < setUps.length; i++) status[instance.paidAt + (setUps[i] as number)] = 1;
  const engine = instance.engineOf[action] as number;
  if (engine !== ANY) status[instance.warmAt] = engine === WARM ? 1 : 0;
  if (action < instance.checks) {
    status[action] = (status[action] as number) + 1;
    status[instance.everAt + action] = 1;
    return;
  }
  const repair = action - instance.checks;
  status[instance.triedAt + repair] = 1;
  const spoils = instance.spoils[repair] as Int32Array;
  for (let i = 0; i < spoils.length; i++) status[spoils[i] as number] = 0;
}

/** Writes belief x P(outcome | hypothesis) to `into`; returns its sum. `into` may be `belief`. */
export function updateByOutcome(instance: Instance, belief: Float64Array, check: number, outcome: number, into: Float64Array): number {
  const n = instance.hypotheses;
  const from = (instance.likelihoodAt[check] as number) + outcome * n;
  const { likelihood } = instance;
  let sum = 0;
  for (let h = 0; h < n; h++) {
    const weight = (belief[h] as number) * (likelihood[from + h] as number);
    into[h] = weight;
    sum += weight;
  }
  return sum;
}

/** Takes away what a repair fixes from `belief` (changed in place); returns the weight fixed. */
export function removeFixed(instance: Instance, belief: Float64Array, repair: number): number {
  let fixed = 0;
  const end = instance.fixAt[repair + 1] as number;
  for (let i = instance.fixAt[repair] as number; i < end; i++) {
    const h = instance.fixHypothesis[i] as number;
    const weight = belief[h] as number;
    const chance = instance.fixChance[i] as number;
    belief[h] = chance >= 1 ? 0 : weight * (1 - chance);
    fixed += weight * chance;
  }
  return fixed;
}

/** Chance (unnormalised) that a repair ends the job now. */
export function fixedWeight(instance: Instance, belief: Float64Array, repair: number): number {
  let fixed = 0;
  const end = instance.fixAt[repair + 1] as number;
  for (let i = instance.fixAt[repair] as number; i < end; i++) {
    fixed += (belief[instance.fixHypothesis[i] as number] as number) * (instance.fixChance[i] as number);
  }
  return fixed;
}
