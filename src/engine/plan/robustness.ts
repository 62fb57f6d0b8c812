import { evaluatePolicy } from './evaluate.ts';
import type { Budget, PolicyNode, TroubleshootingModel } from './model.ts';
import { plan } from './plan.ts';
import { type Random, sampleDirichlet, seededRandom } from './random.ts';
import { spine } from './spine.ts';

/** How firm the stated numbers are taken to be. */
export interface Strengths {
  /** How many observed cases the priors are worth (Dirichlet strength). */
  readonly priorStrength: number;
  /** How many observed cases each row of a check is worth (Dirichlet strength; for two outcomes a beta). */
  readonly likelihoodStrength: number;
}

export interface RobustnessOptions extends Strengths {
  readonly samples: number;
  /** The same number gives the same samples. */
  readonly start: number;
  /** For the plan of each sample. */
  readonly budget: Budget;
}

export interface Robustness {
  readonly samples: number;
  /** Share of samples whose plan begins with the same step, and with the same three steps of the spine. */
  readonly firstStays: number;
  readonly firstThreeStay: number;
  /** Mean and 90th percentile of what the default policy costs above the policy planned for the sample. */
  readonly meanRegret: number;
  readonly ninetiethPercentileRegret: number;
  /** Mean over the samples of the expected cost of the default policy. */
  readonly meanCost: number;
  /** First steps over all samples, most frequent first. */
  readonly firstSteps: readonly { readonly kind: PolicyNode['kind']; readonly action: number | null; readonly share: number }[];
}

/** How far a policy depends on the exact priors and likelihoods: both are sampled about the stated ones and re-planned. */
export function robustness(model: TroubleshootingModel, policy: PolicyNode, options: RobustnessOptions): Robustness {
  const random = seededRandom(options.start);
  const stated = leadingSteps(model, policy);
  const firsts = new Map<string, { kind: PolicyNode['kind']; action: number | null; count: number }>();
  const regrets: number[] = [];
  let firstStays = 0;
  let firstThreeStay = 0;
  let cost = 0;
  for (let i = 0; i < options.samples; i++) {
    const sampled = sampleModel(model, options, random);
    const replanned = plan(sampled, options.budget);
    const steps = leadingSteps(sampled, replanned.policy);
    if (steps[0] === stated[0]) firstStays++;
    if (steps.join() === stated.join()) firstThreeStay++;
    const own = evaluatePolicy(sampled, policy);
    cost += own;
    // The plan of a sample is not always optimal: the default policy is then the better of the two.
    regrets.push(Math.max(0, own - replanned.expectedCost));
    const { kind } = replanned.policy;
    const action = replanned.policy.kind === 'hand-over' ? null : replanned.policy.action;
    const first = firsts.get(`${kind} ${action}`) ?? { kind, action, count: 0 };
    first.count++;
    firsts.set(`${kind} ${action}`, first);
  }
  regrets.sort((a, b) => a - b);
  return {
    samples: options.samples,
    firstStays: firstStays / options.samples,
    firstThreeStay: firstThreeStay / options.samples,
    meanRegret: regrets.reduce((sum, regret) => sum + regret, 0) / options.samples,
    ninetiethPercentileRegret: regrets[Math.min(options.samples - 1, Math.floor(0.9 * options.samples))] ?? 0,
    meanCost: cost / options.samples,
    firstSteps: [...firsts.values()]
      .sort((a, b) => b.count - a.count)
      .map(({ kind, action, count }) => ({ kind, action, share: count / options.samples })),
  };
}

/** The model with priors and likelihoods drawn about the stated ones. */
export function sampleModel(model: TroubleshootingModel, strengths: Strengths, random: Random): TroubleshootingModel {
  return {
    ...model,
    prior: sampleDirichlet(model.prior, strengths.priorStrength, random),
    checks: model.checks.map((check) => ({ ...check, likelihood: sampleRows(check.likelihood, strengths.likelihoodStrength, random) })),
  };
}

/** Hypotheses with the same row share its uncertainty: they are drawn together. */
function sampleRows(rows: readonly (readonly number[])[], strength: number, random: Random): number[][] {
  const drawn = new Map<string, number[]>();
  return rows.map((row) => {
    const key = row.join();
    const sample = drawn.get(key) ?? sampleDirichlet(row, strength, random);
    drawn.set(key, sample);
    return sample;
  });
}

function leadingSteps(model: TroubleshootingModel, policy: PolicyNode): string[] {
  return spine(model, policy)
    .slice(0, 3)
    .map((step) => `${step.kind} ${step.action}`);
}
