import { afterCheck, afterFailedRepair, at, checkIsOpen, costNow, fixedBy, type Job, mass, repairIsOpen, startJob } from './job.ts';
import type { PolicyNode, TroubleshootingModel } from './model.ts';

/** One way for the job to end. `solved` is false when the car was handed over. */
export interface Ending {
  readonly cost: number;
  readonly probability: number;
  readonly solved: boolean;
}

export interface CostSummary {
  readonly mean: number;
  readonly median: number;
  readonly ninetiethPercentile: number;
  /** Chance that the fault is gone without handing over. */
  readonly solved: number;
}

/**
 * Exact expected cost of a policy, from the model alone: beliefs, set-ups, engine state and costs are worked out anew
 * on the way and no number stored in the policy is used.
 * @throws when the policy breaks a rule of the model or has no branch for a result that can happen.
 */
export function evaluatePolicy(model: TroubleshootingModel, policy: PolicyNode): number {
  let expected = 0;
  visitEndings(model, policy, (cost, probability) => {
    expected += cost * probability;
  });
  return expected;
}

/** Every way for the job to end, exact, by rising cost; endings of equal cost and kind are added up. */
export function costDistribution(model: TroubleshootingModel, policy: PolicyNode): Ending[] {
  const sums = new Map<string, { cost: number; probability: number; solved: boolean }>();
  visitEndings(model, policy, (cost, probability, solved) => {
    const key = `${cost.toPrecision(12)}${solved}`;
    const sum = sums.get(key);
    if (sum) sum.probability += probability;
    else sums.set(key, { cost, probability, solved });
  });
  return [...sums.values()].sort((a, b) => a.cost - b.cost || Number(b.solved) - Number(a.solved));
}

/** Chance that the fault is gone, without handing over, for at most this much. */
export function chanceSolvedBy(distribution: readonly Ending[], cost: number): number {
  let chance = 0;
  for (const ending of distribution) if (ending.solved && ending.cost <= cost + 1e-9) chance += ending.probability;
  return chance;
}

/** The least cost that the job stays within with at least this chance (0 to 1). */
export function costQuantile(distribution: readonly Ending[], chance: number): number {
  let sum = 0;
  for (const ending of distribution) {
    sum += ending.probability;
    if (sum >= chance - 1e-12) return ending.cost;
  }
  return distribution.at(-1)?.cost ?? 0;
}

export function summarise(distribution: readonly Ending[]): CostSummary {
  let mean = 0;
  let solved = 0;
  for (const ending of distribution) {
    mean += ending.cost * ending.probability;
    if (ending.solved) solved += ending.probability;
  }
  return { mean, median: costQuantile(distribution, 0.5), ninetiethPercentile: costQuantile(distribution, 0.9), solved };
}

type EndingVisitor = (cost: number, probability: number, solved: boolean) => void;

function visitEndings(model: TroubleshootingModel, policy: PolicyNode, visit: EndingVisitor): void {
  const walk = (node: PolicyNode, job: Job, spent: number): void => {
    if (node.kind === 'hand-over') {
      visit(spent + model.handOverCost, mass(job), false);
      return;
    }
    if (node.kind === 'check') {
      if (!checkIsOpen(model, job, node.action)) throw new Error(`policy does check ${node.action} where it is not open`);
      const after = spent + costNow(model, job, at(model.checks, node.action));
      afterCheck(model, job, node.action).forEach((next, outcome) => {
        if (mass(next) > 0) walk(branch(node.next[outcome]), next, after);
      });
      return;
    }
    if (!repairIsOpen(model, job, node.action)) throw new Error(`policy tries repair ${node.action} where it is not open`);
    const after = spent + costNow(model, job, at(model.repairs, node.action));
    const next = afterFailedRepair(model, job, node.action);
    const left = mass(next);
    const repair = at(model.repairs, node.action);
    let fixed = 0;
    for (const h of fixedBy(repair)) fixed += at(job.belief, h) * at(repair.fixes, h);
    if (fixed > 0) visit(after, fixed, true);
    if (left > 0) walk(branch(node.next), next, after);
  };
  walk(policy, startJob(model), 0);
}

function branch(node: PolicyNode | null | undefined): PolicyNode {
  if (!node) throw new Error('policy has no branch for a result that can happen');
  return node;
}
