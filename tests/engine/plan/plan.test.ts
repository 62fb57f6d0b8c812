import { describe, expect, it } from 'vitest';
import { randomModel } from '../../../scripts/bench/random-models.ts';
import { chanceSolvedBy, costDistribution, plan, spine } from '../../../src/engine/plan/index.ts';
import { compileInstance, startStatus } from '../../../src/engine/plan/instance.ts';
import { KnownCosts } from '../../../src/engine/plan/known-cost.ts';
import { PairBound } from '../../../src/engine/plan/pair-bound.ts';
import { pairDetail } from '../../../src/engine/plan/plan.ts';
import { cheaper, HASTY, improvedPolicy, PATIENT, quickPolicy, THOROUGH } from '../../../src/engine/plan/quick-policy.ts';
import { Search } from '../../../src/engine/plan/search.ts';
import { bareModel, soleRepair } from './bare-model.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

const SMALL = { nodes: 5000 };

describe('a plan for a small random model with every feature on', () => {
  const models = Array.from({ length: 400 }, (_, index) => smallModel(seeded(index + 1)));

  it('has endings that add up to certainty, and whose mean is the expected cost', () => {
    for (const model of models) {
      const made = plan(model, SMALL);
      const endings = costDistribution(model, made.policy);
      expect(endings.reduce((sum, ending) => sum + ending.probability, 0)).toBeCloseTo(1, 9);
      expect(endings.reduce((sum, ending) => sum + ending.probability * ending.cost, 0)).toBeCloseTo(made.expectedCost, 8);
    }
  });

  it('has a spine whose cumulative cost ends at the expected cost and whose chances end at the chance solved', () => {
    for (const model of models) {
      const made = plan(model, SMALL);
      const last = spine(model, made.policy).at(-1);
      expect(last?.cumulativeCost).toBeCloseTo(made.expectedCost, 8);
      expect(last?.cumulativeChance).toBeCloseTo(chanceSolvedBy(costDistribution(model, made.policy), 1e9), 8);
    }
  });
});

describe('a budget', () => {
  const model = randomModel(6, 12, seeded(3));
  const start = () => {
    const instance = compileInstance(model);
    return { instance, prior: Float64Array.from(model.prior), status: startStatus(instance) };
  };

  it('of ten nodes is a glance, of eleven a look: the quick policy with more improvement', () => {
    const { instance, prior, status } = start();
    const hasty = quickPolicy(instance, prior, status, HASTY).cost;
    const thorough = quickPolicy(instance, prior, status, THOROUGH).cost;
    expect(thorough).toBeLessThan(hasty);
    expect(plan(model, { nodes: 10 }).expectedCost).toBe(hasty);
    expect(plan(model, { nodes: 11 }).expectedCost).toBe(thorough);
  });

  it('has the omniscient bound below twenty nodes, the pair bound from there, and a search from thirty', () => {
    const { instance, prior, status } = start();
    expect(plan(model, { nodes: 19 })).toMatchObject({ nodes: 0, lowerBound: new KnownCosts(instance).expected(prior, status) });
    const detail = pairDetail(20);
    const tuned = new PairBound(instance, prior, status, detail).tune(prior, status, detail.rounds);
    expect(plan(model, { nodes: 20 })).toMatchObject({ nodes: 0, lowerBound: tuned });
    expect(plan(model, { nodes: 29 })).toMatchObject({ nodes: 0, lowerBound: tuned });
    const searched = plan(model, { nodes: 30 });
    expect(searched.nodes).toBe(30);
    expect(searched.lowerBound).toBeGreaterThan(tuned);
  });

  it('improves the better of the quick policy and what the search found, with ten thousand pieces of work a node', () => {
    const { instance, prior, status } = start();
    const detail = pairDetail(30);
    const bound = new PairBound(instance, prior, status, detail);
    bound.tune(prior, status, detail.rounds);
    const search = new Search(instance, prior, status, bound);
    search.run(30);
    const best = cheaper(quickPolicy(instance, prior, status, THOROUGH), search.policy(1e-3));
    const improved = improvedPolicy(instance, best, prior, status, { ...PATIENT, mostWork: 300_000 });
    expect(improved.cost).toBeLessThan(best.cost);
    expect(plan(model, { nodes: 30 }).expectedCost).toBe(improved.cost);
  });

  it('buys more detail of the pair bound at a hundred nodes and at three hundred', () => {
    expect([99, 100, 299, 300].map((nodes) => pairDetail(nodes).mostSets)).toEqual([24, 256, 256, 512]);
    expect(pairDetail(100)).toEqual({ mostPairs: 500, mostSets: 256, rounds: 10 });
  });

  it('leaves no gap where the bounds meet, and says what is left where they do not', () => {
    const exact = { ...bareModel, prior: [0.5, 0.5], repairs: [soleRepair(0, 2, 50), soleRepair(1, 2, 60)] };
    const made = plan(exact, { nodes: 100 });
    expect(made).toMatchObject({ gap: 0, lowerBound: made.expectedCost });
    expect(made.expectedCost).toBeCloseTo(50 + 0.5 * 60, 12);
    const open = plan(model, { nodes: 20 });
    expect(open.gap).toBeCloseTo((open.expectedCost - open.lowerBound) / open.lowerBound, 12);
    // Nothing to pay: nothing to prove.
    const free = { ...exact, repairs: [soleRepair(0, 2, 0), soleRepair(1, 2, 0)] };
    expect(plan(free, { nodes: 5 })).toMatchObject({ expectedCost: 0, lowerBound: 0, gap: 0 });
  });
});
