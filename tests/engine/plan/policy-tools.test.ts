import { describe, expect, it } from 'vitest';
import {
  chanceSolvedBy,
  costDistribution,
  costQuantile,
  explain,
  type PolicyNode,
  plan,
  rerank,
  robustness,
  spine,
  summarise,
  type TroubleshootingModel,
} from '../../../src/engine/plan/index.ts';
import { sampleDirichlet, sampleGamma, seededRandom } from '../../../src/engine/plan/random.ts';
import { bareModel } from './bare-model.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

const ENOUGH = { nodes: 20_000 };

/** Two causes, one look that tells them apart nine times in ten. */
const TWO: TroubleshootingModel = {
  ...bareModel,
  prior: [0.7, 0.3],
  checks: [
    {
      id: 'look',
      cost: 2,
      setUps: [0],
      after: [],
      engineState: 'any',
      likelihood: [
        [0.9, 0.1],
        [0.1, 0.9],
      ],
      repeats: false,
      maxPerformances: 1,
    },
  ],
  repairs: [
    { id: 'hose', cost: 40, setUps: [0], after: [], engineState: 'any', fixes: [1, 0], spoils: [] },
    { id: 'pump', cost: 100, setUps: [], after: [], engineState: 'any', fixes: [0, 1], spoils: [] },
  ],
  setUpCosts: [5],
};

/** Plays a policy once against a hypothesis drawn from the prior, with results drawn as the model says. */
function playOnce(model: TroubleshootingModel, policy: PolicyNode, random: () => number): { cost: number; solved: boolean } {
  const draw = (chances: readonly number[]): number => {
    let left = random();
    const at = chances.findIndex((chance) => {
      left -= chance;
      return left < 0;
    });
    return at < 0 ? chances.length - 1 : at;
  };
  const truth = draw(model.prior);
  let cost = 0;
  let node: PolicyNode | null = policy;
  while (node) {
    cost += node.cost;
    if (node.kind === 'hand-over') return { cost, solved: false };
    if (node.kind === 'check') node = node.next[draw(model.checks[node.action]?.likelihood[truth] ?? [])] ?? null;
    else if (random() < (model.repairs[node.action]?.fixes[truth] ?? 0)) return { cost, solved: true };
    else node = node.next;
  }
  throw new Error('the policy ended without an end');
}

describe('the cost distribution of a policy', () => {
  it('is what a seeded simulation of 20,000 jobs finds', () => {
    for (const start of [3, 5, 9, 11]) {
      const model = smallModel(seeded(start));
      const { policy } = plan(model, ENOUGH);
      const exact = costDistribution(model, policy);
      const random = seeded(99);
      const jobs = Array.from({ length: 20_000 }, () => playOnce(model, policy, random));
      const mean = jobs.reduce((sum, job) => sum + job.cost, 0) / jobs.length;
      const summary = summarise(exact);
      const variance = exact.reduce((sum, end) => sum + end.probability * (end.cost - summary.mean) ** 2, 0);
      expect(Math.abs(mean - summary.mean)).toBeLessThan(4 * Math.sqrt(variance / jobs.length) + 1e-9);
      for (const cost of exact.map((end) => end.cost)) {
        const share = jobs.filter((job) => job.solved && job.cost <= cost + 1e-6).length / jobs.length;
        expect(Math.abs(share - chanceSolvedBy(exact, cost))).toBeLessThan(4 * Math.sqrt(0.25 / jobs.length));
      }
    }
  });

  it('gives the percentiles of two causes by hand', () => {
    const distribution = costDistribution(TWO, plan(TWO, ENOUGH).policy);
    // Look (2 + 5), then the hose on "good" and the pump on "bad"; the other one if that was wrong.
    expect(distribution.map(({ cost, probability }) => [cost, Number(probability.toFixed(12))])).toEqual([
      [47, 0.63],
      [107, 0.27],
      [147, 0.1],
    ]);
    expect(costQuantile(distribution, 0.5)).toBe(47);
    expect(costQuantile(distribution, 0.9)).toBe(107);
    expect(summarise(distribution).solved).toBeCloseTo(1, 12);
  });
});

describe('the spine', () => {
  it('follows the likeliest outcome and says what each step settles', () => {
    const steps = spine(TWO, plan(TWO, ENOUGH).policy);
    expect(steps.map((step) => [step.kind, step.action, step.outcome])).toEqual([
      ['check', 0, 0],
      ['repair', 0, null],
      ['repair', 1, null],
    ]);
    expect(steps.map((step) => Number(step.settles.toFixed(12)))).toEqual([0.34, 0.63, 0.03]);
    expect(steps.map((step) => Number(step.reach.toFixed(12)))).toEqual([1, 0.66, 0.03]);
  });
});

describe('the reasons of a step', () => {
  it('break even where the price makes both orders cost the same', () => {
    let compared = 0;
    for (let start = 1; start <= 200; start++) {
      const model = { ...smallModel(seeded(start)), setUpCosts: [], coolDownCost: 0, warmUpCost: 0 };
      const bare = {
        ...model,
        checks: [],
        repairs: model.repairs.map((repair) => ({ ...repair, setUps: [], after: [], spoils: [] })),
        setUpsDone: [],
      };
      const { policy } = plan(bare, ENOUGH);
      const [first] = explain(bare, policy);
      if (first?.step.kind !== 'repair' || !first.against?.breakEvenPrice) continue;
      const second = policy.kind === 'repair' ? policy.next : null;
      if (second?.kind !== 'repair' || policy.kind !== 'repair') continue;
      const priced = {
        ...bare,
        repairs: bare.repairs.map((repair, r) => (r === policy.action ? { ...repair, cost: first.against?.breakEvenPrice ?? 0 } : repair)),
      };
      const [again] = explain(priced, policy);
      expect(again?.against?.saves).toBeCloseTo(0, 6);
      expect(first.against.saves).toBeGreaterThan(-1e-9);
      compared++;
    }
    expect(compared).toBeGreaterThan(20);
  });

  it('value the look of two causes at what it saves in wasted repairs', () => {
    const [look] = explain(TWO, plan(TWO, ENOUGH).policy);
    // Without it: hose first, 40 + 0.3 x 100 = 70. With it: 0.66 x 40 + 0.34 x 100 + 0.03 x 100 + 0.07 x 40 = 66.2.
    expect(look?.valueOfInformation).toBeCloseTo(70 - 66.2, 9);
    expect(look?.costToGo).toBeCloseTo(2 + 5 + 66.2, 9);
  });
});

describe('the immediate ranking', () => {
  it('puts an action first whose estimate no other undercuts, and estimates never fall below the optimum', () => {
    for (let start = 1; start <= 200; start++) {
      const model = smallModel(seeded(start));
      const ranked = rerank(model);
      const optimum = plan(model, ENOUGH).expectedCost;
      expect(ranked[0]?.deviation).toBe(0);
      for (const { estimate, deviation } of ranked) {
        expect(estimate).toBeGreaterThan(optimum - 1e-7);
        expect(deviation).toBeGreaterThanOrEqual(0);
      }
    }
  });
});

describe('robustness', () => {
  const options = { samples: 60, priorStrength: 20, likelihoodStrength: 20, start: 4, budget: { nodes: 2000 } };

  it('is the same for the same start', () => {
    const { policy } = plan(TWO, ENOUGH);
    expect(robustness(TWO, policy, options)).toEqual(robustness(TWO, policy, options));
  });

  it('finds no regret and the same steps when the opinions are almost certain', () => {
    const model = smallModel(seeded(5));
    const { policy } = plan(model, ENOUGH);
    const sure = robustness(model, policy, { ...options, priorStrength: 1e9, likelihoodStrength: 1e9 });
    expect(sure.firstStays).toBe(1);
    expect(sure.meanRegret).toBeLessThan(0.01);
    expect(sure.meanCost).toBeCloseTo(plan(model, ENOUGH).expectedCost, 1);
  });

  it('finds more regret the weaker the opinions are', () => {
    const { policy } = plan(TWO, ENOUGH);
    const weak = robustness(TWO, policy, { ...options, priorStrength: 2, likelihoodStrength: 4 });
    const strong = robustness(TWO, policy, { ...options, priorStrength: 500, likelihoodStrength: 500 });
    expect(weak.meanRegret).toBeGreaterThan(strong.meanRegret);
    expect(weak.firstStays).toBeLessThanOrEqual(strong.firstStays);
  });
});

describe('the seeded samplers', () => {
  it('have the mean and variance of the gamma distribution (both equal the shape)', () => {
    const random = seededRandom(7);
    for (const shape of [0.4, 1, 3.5]) {
      const draws = Array.from({ length: 40_000 }, () => sampleGamma(shape, random));
      const mean = draws.reduce((sum, draw) => sum + draw, 0) / draws.length;
      const variance = draws.reduce((sum, draw) => sum + (draw - mean) ** 2, 0) / draws.length;
      expect(Math.abs(mean - shape)).toBeLessThan(5 * Math.sqrt(shape / draws.length));
      expect(Math.abs(variance / shape - 1)).toBeLessThan(0.1);
    }
  });

  it('keep the mean of the Dirichlet distribution and the chances that are 0', () => {
    const random = seededRandom(8);
    const draws = Array.from({ length: 20_000 }, () => sampleDirichlet([0.6, 0.4, 0], 12, random));
    expect(draws.every((draw) => draw[2] === 0 && Math.abs((draw[0] ?? 0) + (draw[1] ?? 0) - 1) < 1e-12)).toBe(true);
    expect(draws.reduce((sum, draw) => sum + (draw[0] ?? 0), 0) / draws.length).toBeCloseTo(0.6, 2);
  });
});
