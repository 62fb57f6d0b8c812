import { afterCheck, afterFailedRepair, at, costNow, type Job, mass, startJob } from './job.ts';
import type { CheckAction, PolicyNode, RepairAction, TroubleshootingModel } from './model.ts';

/** One step of the path that the job takes while nothing is found. */
export interface SpineStep {
  readonly kind: PolicyNode['kind'];
  /** Index of the check or repair; null for handing over. */
  readonly action: number | null;
  /** For a check, the outcome that stays on the spine: the likeliest. */
  readonly outcome: number | null;
  readonly cost: number;
  /** Chance, seen from the start, that the job gets here. */
  readonly reach: number;
  /** Chance, seen from the start, that the job leaves the spine here (another outcome, or fixed). */
  readonly leaves: number;
  /** Chance, seen from the start, that the fault is gone by the branches that leave the spine here. */
  readonly settles: number;
  /** Sum of `settles` up to and with this step. */
  readonly cumulativeChance: number;
  /** Expected cost of the spine up to and with this step and of all branches that have left it. */
  readonly cumulativeCost: number;
}

/**
 * The path of a policy on which each check comes back with its likeliest outcome and no repair holds. The branches are
 * everything else; the last `cumulativeCost` is the expected cost of the whole policy.
 */
export function spine(model: TroubleshootingModel, policy: PolicyNode): SpineStep[] {
  const steps: SpineStep[] = [];
  let node: PolicyNode | null = policy;
  let job = startJob(model);
  let chance = 0;
  let spent = 0;
  while (node) {
    const reach = mass(job);
    if (node.kind === 'hand-over') {
      spent += reach * model.handOverCost;
      const ends = { reach, leaves: 0, settles: 0, cumulativeChance: chance, cumulativeCost: spent };
      steps.push({ kind: node.kind, action: null, outcome: null, cost: model.handOverCost, ...ends });
      break;
    }
    const action: number = node.action;
    let outcome: number | null = null;
    let settles = 0;
    let next: PolicyNode | null;
    let nextJob: Job;
    const cost = costNow(model, job, actionOf(model, node));
    spent += reach * cost;
    if (node.kind === 'check') {
      const after = afterCheck(model, job, action);
      outcome = likeliest(after);
      for (let o = 0; o < after.length; o++) {
        const branch = node.next[o];
        if (o === outcome || !branch) continue;
        const end = outlook(model, branch, at(after, o));
        settles += end.solved;
        spent += end.cost;
      }
      next = node.next[outcome] ?? null;
      nextJob = at(after, outcome);
    } else {
      nextJob = afterFailedRepair(model, job, action);
      settles = reach - mass(nextJob);
      next = node.next;
    }
    chance += settles;
    const leaves = reach - mass(nextJob);
    steps.push({ kind: node.kind, action, outcome, cost, reach, leaves, settles, cumulativeChance: chance, cumulativeCost: spent });
    node = next;
    job = nextJob;
  }
  return steps;
}

/** Expected cost and chance solved of a policy from a job in mid-course; both weighted by the chance of being there. */
function outlook(model: TroubleshootingModel, node: PolicyNode, job: Job): { cost: number; solved: number } {
  const reach = mass(job);
  if (node.kind === 'hand-over') return { cost: reach * model.handOverCost, solved: 0 };
  const sum = { cost: reach * costNow(model, job, actionOf(model, node)), solved: 0 };
  const add = (branch: PolicyNode | null | undefined, next: Job): void => {
    if (!branch) return;
    const end = outlook(model, branch, next);
    sum.cost += end.cost;
    sum.solved += end.solved;
  };
  if (node.kind === 'check') {
    afterCheck(model, job, node.action).forEach((next, outcome) => {
      add(node.next[outcome], next);
    });
  } else {
    const next = afterFailedRepair(model, job, node.action);
    sum.solved += reach - mass(next);
    add(node.next, next);
  }
  return sum;
}

function actionOf(model: TroubleshootingModel, node: Exclude<PolicyNode, { kind: 'hand-over' }>): CheckAction | RepairAction {
  return node.kind === 'check' ? at(model.checks, node.action) : at(model.repairs, node.action);
}

function likeliest(jobs: readonly Job[]): number {
  let best = 0;
  jobs.forEach((job, outcome) => {
    if (mass(job) > mass(at(jobs, best)) + 1e-12) best = outcome;
  });
  return best;
}
