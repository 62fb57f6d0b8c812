import { describe, expect, it } from 'vitest';
import { comparePolicies, evaluatePolicy, plan } from '../../../src/engine/plan/index.ts';
import { bruteForce } from './brute-force.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

const ENOUGH = { nodes: 20_000 };

describe('the exact search', () => {
  it.each([0, 1, 2, 3, 4])(
    'finds the optimum of 440 random small models with every feature on, and proves it (part %i of 2,200)',
    (part) => {
      for (let start = 440 * part + 1; start <= 440 * (part + 1); start++) {
        const model = smallModel(seeded(start));
        const made = plan(model, ENOUGH);
        expect(made.gap, `model ${start}`).toBe(0);
        expect(Math.abs(made.expectedCost - bruteForce(model)), `model ${start}`).toBeLessThan(1e-7);
        expect(Math.abs(evaluatePolicy(model, made.policy) - made.expectedCost), `model ${start}`).toBeLessThan(1e-7);
      }
    },
  );

  it('keeps the lower bound at or below the optimum, and the policy at or above, whatever the budget', () => {
    for (let start = 3000; start < 3300; start++) {
      const model = smallModel(seeded(start));
      const optimum = bruteForce(model);
      for (const nodes of [1, 5, 30, 60]) {
        const made = plan(model, { nodes });
        expect(made.lowerBound, `model ${start}`).toBeLessThan(optimum + 1e-7);
        expect(made.expectedCost, `model ${start}`).toBeGreaterThan(optimum - 1e-7);
        expect(Math.abs(evaluatePolicy(model, made.policy) - made.expectedCost), `model ${start}`).toBeLessThan(1e-7);
      }
    }
  });

  it('costs no more than any of the four rules that it is compared with', () => {
    for (let start = 1; start <= 300; start++) {
      const [computed, ...others] = comparePolicies(smallModel(seeded(start)), ENOUGH);
      for (const other of others) expect(other.expectedCost).toBeGreaterThan((computed?.expectedCost ?? Infinity) - 1e-7);
    }
  });

  it('stops when asked to, with bounds that hold', () => {
    const model = smallModel(seeded(12));
    const made = plan(model, { nodes: 20_000, stop: () => true });
    expect(made.nodes).toBeLessThan(20);
    expect(made.lowerBound).toBeLessThan(bruteForce(model) + 1e-7);
  });
});
