import { describe, expect, it } from 'vitest';
import { chanceSolvedBy, costDistribution, plan, spine } from '../../../src/engine/plan/index.ts';
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
