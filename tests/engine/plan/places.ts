import { compileInstance, type Instance, startStatus } from '../../../src/engine/plan/instance.ts';
import { afterCheck, afterFailedRepair, checkIsOpen, type Job, mass, repairIsOpen, startJob } from '../../../src/engine/plan/job.ts';
import type { TroubleshootingModel } from '../../../src/engine/plan/model.ts';

/** Somewhere in a job: in plain form, and as the planner sees it. */
export interface Place {
  readonly model: TroubleshootingModel;
  readonly job: Job;
  readonly instance: Instance;
  /** Scaled to sum 1. */
  readonly belief: Float64Array;
  readonly status: Uint8Array;
}

/** The places that one job with random actions and random results comes by, its start first. */
export function placesOf(model: TroubleshootingModel, random: () => number, most = 6): Place[] {
  const instance = compileInstance(model);
  const places: Place[] = [];
  let job = startJob(model);
  while (places.length < most && mass(job) > 1e-6) {
    places.push({ model, job, instance, belief: scaledBelief(job), status: statusOf(instance, job) });
    const here = job;
    const nexts = [
      ...model.checks.flatMap((_, check) => (checkIsOpen(model, here, check) ? afterCheck(model, here, check) : [])),
      ...model.repairs.flatMap((_, repair) => (repairIsOpen(model, here, repair) ? [afterFailedRepair(model, here, repair)] : [])),
    ].filter((next) => mass(next) > 1e-6);
    const next = nexts[Math.floor(random() * nexts.length)];
    if (!next) break;
    job = next;
  }
  return places;
}

export function scaledBelief(job: Job): Float64Array {
  const total = mass(job);
  return Float64Array.from(job.belief, (weight) => weight / total);
}

/** The status bytes of a plain job. */
export function statusOf(instance: Instance, job: Job): Uint8Array {
  const status = startStatus(instance);
  status.set(job.performed, 0);
  status.set(job.everDone.map(Number), instance.everAt);
  status.set(job.tried.map(Number), instance.triedAt);
  status.set(job.paid.map(Number), instance.paidAt);
  status[instance.warmAt] = Number(job.warm);
  return status;
}

/**
 * The rest of the job from a place as a problem of its own. null where a repair has spoiled the reading of a check: that it was
 * done before cannot be told in a model.
 */
export function restOf({ model, job, belief }: Place): TroubleshootingModel | null {
  if (job.everDone.some((done, check) => done && !job.performed[check])) return null;
  const which = (list: readonly boolean[]): number[] => list.flatMap((is, index) => (is ? [index] : []));
  return {
    ...model,
    prior: [...belief],
    checksDone: job.performed.flatMap((times, check) => Array.from({ length: times }, () => check)),
    repairsTried: which(job.tried),
    setUpsDone: which(job.paid),
    startsWarm: job.warm,
  };
}
