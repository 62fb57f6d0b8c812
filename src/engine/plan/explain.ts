import { compileInstance, startStatus } from './instance.ts';
import { afterCheck, afterFailedRepair, at, checkIsOpen, costNow, type Job, mass, repairIsOpen, startJob } from './job.ts';
import type { CheckAction, PolicyNode, RepairAction, TroubleshootingModel } from './model.ts';
import { RepairSequencer } from './repair-sequence.ts';
import { type SpineStep, spine } from './spine.ts';

/** Why a step of the spine stands where it does. All figures hold for someone who has got as far as this step. */
export interface StepReason {
  readonly step: SpineStep;
  /** Chance, from here, that the step leads off the spine (another result, or the repair works). */
  readonly leaves: number;
  /** For a check: what its result saves on average, without its own cost, if repairs in P/C order follow. */
  readonly valueOfInformation: number | null;
  /** Expected cost of the rest of the job from here. */
  readonly costToGo: number;
  readonly against: Exchange | null;
}

/**
 * The step against the one after it, by exchanging the two: null where precedence forbids that or there is no next.
 * If the next step is to hand over, the alternative is to hand over now.
 */
export interface Exchange {
  /** What doing the next step first would add (negative: it would save by exchange alone). */
  readonly saves: number;
  /** The step may cost up to this before the next one should come first; null when no price changes the order. */
  readonly breakEvenPrice: number | null;
  /** The order holds while the chance to leave the spine here is at least this; null when no chance changes it. */
  readonly breakEvenChance: number | null;
}

/** Reasons for each step of the spine of a policy. */
export function explain(model: TroubleshootingModel, policy: PolicyNode): StepReason[] {
  const steps = spine(model, policy);
  const instance = compileInstance(model);
  const sequencer = new RepairSequencer(instance);
  const sequenceCost = (job: Job): number => {
    const status = startStatus(instance);
    job.performed.forEach((count, check) => {
      status[check] = count;
      status[instance.everAt + check] = job.everDone[check] ? 1 : 0;
    });
    job.tried.forEach((tried, repair) => {
      status[instance.triedAt + repair] = tried ? 1 : 0;
    });
    job.paid.forEach((paid, setUp) => {
      status[instance.paidAt + setUp] = paid ? 1 : 0;
    });
    status[instance.warmAt] = job.warm ? 1 : 0;
    return sequencer.cost(Float64Array.from(job.belief), status, mass(job));
  };
  const reasons: StepReason[] = [];
  const total = steps.at(-1)?.cumulativeCost ?? 0;
  let job = startJob(model);
  steps.forEach((step, index) => {
    const reach = mass(job);
    let valueOfInformation: number | null = null;
    if (step.kind === 'check') {
      const after = afterCheck(model, job, step.action as number).filter((branch) => mass(branch) > 0);
      // The check is done either way here, so that only its result makes the difference.
      const untold = { ...at(after, 0), belief: job.belief };
      valueOfInformation = Math.max(0, sequenceCost(untold) - after.reduce((sum, branch) => sum + sequenceCost(branch), 0)) / reach;
    }
    const next = steps[index + 1];
    const costToGo = (total - (steps[index - 1]?.cumulativeCost ?? 0)) / reach;
    reasons.push({
      step,
      leaves: step.leaves / reach,
      valueOfInformation,
      costToGo,
      against: next ? exchange(model, job, step, next, costToGo) : null,
    });
    job = staying(model, job, step);
  });
  return reasons;
}

function exchange(model: TroubleshootingModel, job: Job, step: SpineStep, next: SpineStep, costToGo: number): Exchange | null {
  const reach = mass(job);
  const stays = mass(staying(model, job, step)) / reach;
  if (next.kind === 'hand-over') return againstHandingOver(model, step, costToGo, stays);
  if (!isOpen(model, job, next)) return null;
  const nextFirst = staying(model, job, next);
  const nextStays = mass(nextFirst) / reach;
  const cost = step.cost;
  const costAfterNext = costNow(model, nextFirst, actionOf(model, step));
  const nextCost = costNow(model, job, actionOf(model, next));
  const nextCostAfter = next.cost;
  const saves = nextCost + nextStays * costAfterNext - (cost + stays * nextCostAfter);
  const breakEvenPrice = nextStays < 1 ? Math.max(0, cost + saves / (1 - nextStays)) : null;
  const staysAtMost = nextCostAfter > 0 ? (nextCost + nextStays * costAfterNext - cost) / nextCostAfter : Number.POSITIVE_INFINITY;
  const breakEvenChance = staysAtMost >= 1 || staysAtMost < 0 ? null : 1 - staysAtMost;
  return { saves, breakEvenPrice, breakEvenChance };
}

function againstHandingOver(model: TroubleshootingModel, step: SpineStep, withStep: number, stays: number): Exchange {
  const saves = model.handOverCost - withStep;
  // What a branch off the spine costs on average, so that fewer branches mean less saved in proportion.
  const branches = withStep - step.cost - stays * model.handOverCost;
  const savedOffSpine = stays < 1 ? model.handOverCost - branches / (1 - stays) : 0;
  const chance = savedOffSpine > 0 ? step.cost / savedOffSpine : null;
  return { saves, breakEvenPrice: Math.max(0, step.cost + saves), breakEvenChance: chance !== null && chance <= 1 ? chance : null };
}

/** The job when the step leaves it on the spine. */
function staying(model: TroubleshootingModel, job: Job, step: SpineStep): Job {
  if (step.kind === 'check') return at(afterCheck(model, job, step.action as number), step.outcome as number);
  return step.kind === 'repair' ? afterFailedRepair(model, job, step.action as number) : job;
}

function isOpen(model: TroubleshootingModel, job: Job, step: SpineStep): boolean {
  return step.kind === 'check' ? checkIsOpen(model, job, step.action as number) : repairIsOpen(model, job, step.action as number);
}

function actionOf(model: TroubleshootingModel, step: SpineStep): CheckAction | RepairAction {
  return step.kind === 'check' ? at(model.checks, step.action as number) : at(model.repairs, step.action as number);
}
