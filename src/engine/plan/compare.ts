import { type CostSummary, costDistribution, type Ending, summarise } from './evaluate.ts';
import { afterCheck, afterFailedRepair, at, checkIsOpen, costNow, type Job, mass, repairIsOpen, startJob } from './job.ts';
import type { Budget, PolicyNode, TroubleshootingModel } from './model.ts';
import { plan } from './plan.ts';

export type Strategy = 'computed' | 'cheapest-first' | 'likeliest-first' | 'replace-by-likelihood' | 'hand-over-at-once';

export interface StrategyResult {
  readonly strategy: Strategy;
  readonly policy: PolicyNode;
  readonly expectedCost: number;
  readonly distribution: readonly Ending[];
  readonly summary: CostSummary;
}

/** A cause is held to be confirmed when its repair would end the job with at least this chance. */
const CONFIRMED = 0.8;
/** Branches less likely than this are finished by repairs in order of likelihood, so that the trees stay finite. */
const LEAST_REACH = 0.01;

/** The same job done in five ways, each evaluated exactly on its whole policy tree. */
export function comparePolicies(model: TroubleshootingModel, budget: Budget): StrategyResult[] {
  return comparePolicyWith(model, plan(model, budget).policy);
}

/** As `comparePolicies`, for a computed policy that is at hand already. */
export function comparePolicyWith(model: TroubleshootingModel, computed: PolicyNode): StrategyResult[] {
  const policies: [Strategy, PolicyNode][] = [
    ['computed', computed],
    ['cheapest-first', strategyPolicy(model, cheapestFirst)],
    ['likeliest-first', strategyPolicy(model, likeliestFirst)],
    ['replace-by-likelihood', strategyPolicy(model, replaceByLikelihood)],
    ['hand-over-at-once', { kind: 'hand-over', cost: model.handOverCost }],
  ];
  return policies.map(([strategy, policy]) => {
    const distribution = costDistribution(model, policy);
    const summary = summarise(distribution);
    return { strategy, policy, expectedCost: summary.mean, distribution, summary };
  });
}

type Choice = { readonly kind: 'check' | 'repair'; readonly action: number } | null;
type Chooser = (model: TroubleshootingModel, job: Job) => Choice;

/**
 * The policy of a rule that picks the next action from where the job stands; null hands over. Whoever has spent as much as
 * handing over would have cost gives up and hands over: without that the rules would look worse than people are.
 */
export function strategyPolicy(model: TroubleshootingModel, choose: Chooser): PolicyNode {
  const build = (job: Job, spent: number): PolicyNode => {
    if (spent >= model.handOverCost) return { kind: 'hand-over', cost: model.handOverCost };
    const choice = mass(job) < LEAST_REACH ? replaceByLikelihood(model, job) : choose(model, job);
    if (!choice) return { kind: 'hand-over', cost: model.handOverCost };
    const { action } = choice;
    if (choice.kind === 'check') {
      const cost = costNow(model, job, at(model.checks, action));
      const next = afterCheck(model, job, action).map((after) => (mass(after) > 0 ? build(after, spent + cost) : null));
      return { kind: 'check', action, cost, next };
    }
    const after = afterFailedRepair(model, job, action);
    const cost = costNow(model, job, at(model.repairs, action));
    const next = mass(after) > 0 ? build(after, spent + cost) : null;
    return { kind: 'repair', action, cost, next };
  };
  return build(startJob(model), 0);
}

/** Parts in order of their chance to end the job, no checks but those that precedence forces. */
export function replaceByLikelihood(model: TroubleshootingModel, job: Job): Choice {
  const repair = likeliestRepair(model, job);
  return repair === null ? null : openStep(model, job, repair);
}

/** Whatever costs least to do next and can still tell or mend something; a confirmed cause is repaired at once. */
export function cheapestFirst(model: TroubleshootingModel, job: Job): Choice {
  const confirmed = confirmedRepair(model, job);
  if (confirmed) return confirmed;
  let best: Choice = null;
  let bestCost = model.handOverCost;
  const offer = (kind: 'check' | 'repair', action: number, cost: number): void => {
    if (cost >= bestCost) return;
    best = { kind, action };
    bestCost = cost;
  };
  model.checks.forEach((check, action) => {
    if (!checkIsOpen(model, job, action)) return;
    const cost = costNow(model, job, check);
    if (cost < bestCost && tellsApart(model, job, action)) offer('check', action, cost);
  });
  model.repairs.forEach((repair, action) => {
    if (repairIsOpen(model, job, action) && fixChance(model, job, action) > 0) offer('repair', action, costNow(model, job, repair));
  });
  return best;
}

/**
 * The likeliest cause first: the check that says most about it (least expected uncertainty about "its repair would end
 * the job"), and the repair once it is confirmed or no check says anything about it.
 */
export function likeliestFirst(model: TroubleshootingModel, job: Job): Choice {
  const repair = likeliestRepair(model, job);
  if (repair === null) return null;
  const confirmed = confirmedRepair(model, job);
  if (confirmed) return confirmed;
  const chance = fixChance(model, job, repair);
  let best = mass(job) * giniOf(chance / mass(job)) - 1e-9;
  let chosen: Choice = null;
  model.checks.forEach((_, action) => {
    if (!checkIsOpen(model, job, action)) return;
    let left = 0;
    for (const after of afterCheck(model, job, action)) {
      const weight = mass(after);
      if (weight > 0) left += weight * giniOf(fixChance(model, after, repair) / weight);
    }
    if (left < best) {
      best = left;
      chosen = { kind: 'check', action };
    }
  });
  return chosen ?? openStep(model, job, repair);
}

function giniOf(chance: number): number {
  return chance * (1 - chance);
}

/** Chance (seen from the start) that this repair ends the job now. */
function fixChance(model: TroubleshootingModel, job: Job, repair: number): number {
  const { fixes } = at(model.repairs, repair);
  let sum = 0;
  for (let hypothesis = 0; hypothesis < fixes.length; hypothesis++) {
    const chance = fixes[hypothesis] as number;
    if (chance > 0) sum += chance * (job.belief[hypothesis] as number);
  }
  return sum;
}

function likeliestRepair(model: TroubleshootingModel, job: Job): number | null {
  let best: number | null = null;
  let bestChance = mass(job) * 1e-12;
  model.repairs.forEach((_, repair) => {
    const chance = at(job.tried, repair) ? 0 : fixChance(model, job, repair);
    if (chance <= bestChance) return;
    best = repair;
    bestChance = chance;
  });
  return best;
}

function confirmedRepair(model: TroubleshootingModel, job: Job): Choice {
  const repair = likeliestRepair(model, job);
  if (repair === null || fixChance(model, job, repair) < CONFIRMED * mass(job)) return null;
  return openStep(model, job, repair);
}

/** The repair, or the first check that must still come before it. */
function openStep(model: TroubleshootingModel, job: Job, repair: number): Choice {
  if (repairIsOpen(model, job, repair)) return { kind: 'repair', action: repair };
  let waiting = at(model.repairs, repair).after.find((check) => !at(job.everDone, check));
  while (waiting !== undefined && !checkIsOpen(model, job, waiting)) {
    waiting = at(model.checks, waiting).after.find((check) => !at(job.everDone, check));
  }
  return waiting === undefined ? null : { kind: 'check', action: waiting };
}

/** Whether some outcome is likelier under one of the hypotheses that are left than under another. */
function tellsApart(model: TroubleshootingModel, job: Job, check: number): boolean {
  const { likelihood } = at(model.checks, check);
  let first: readonly number[] | null = null;
  for (let hypothesis = 0; hypothesis < likelihood.length; hypothesis++) {
    if ((job.belief[hypothesis] as number) <= 0) continue;
    const row = likelihood[hypothesis] as readonly number[];
    if (first === null) first = row;
    else if (row !== first)
      for (let outcome = 0; outcome < row.length; outcome++)
        if (Math.abs((row[outcome] as number) - (first[outcome] as number)) > 1e-9) return true;
  }
  return false;
}
