import { describe, expect, it } from 'vitest';
import { orderCost, smithOrder } from '../../../src/engine/plan/closed-form.ts';
import { compileInstance, startStatus } from '../../../src/engine/plan/instance.ts';
import { PairBound } from '../../../src/engine/plan/pair-bound.ts';
import { bruteForce } from './brute-force.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

describe('the pair bound', () => {
  // Sum over pairs of min(p_i c_j, p_j c_i), plus each own cost: Smith's optimum for 1 || sum w C.
  it("is exactly Smith's optimum where there are repairs only and handing over is out of reach", () => {
    for (let start = 1; start <= 40; start++) {
      const random = seeded(start);
      const raw = Array.from({ length: 2 + Math.floor(random() * 8) }, () => random() + 0.05);
      const total = raw.reduce((sum, weight) => sum + weight, 0);
      const jobs = raw.map((weight) => ({ weight: weight / total, cost: 5 + random() * 50 }));
      const instance = compileInstance({
        prior: jobs.map((job) => job.weight),
        checks: [],
        repairs: jobs.map(({ cost }, i) => ({
          id: `repair-${i}`,
          cost,
          setUps: [],
          after: [],
          engineState: 'any',
          fixes: jobs.map((_, h) => (h === i ? 1 : 0)),
          spoils: [],
        })),
        setUpCosts: [],
        handOverCost: 1e9,
        coolDownCost: 0,
        warmUpCost: 0,
        startsWarm: false,
        setUpsDone: [],
        checksDone: [],
        repairsTried: [],
      });
      const prior = Float64Array.from(instance.model.prior);
      const status = startStatus(instance);
      const bound = new PairBound(instance, prior, status, { mostPairs: 100, mostChecks: 6 });
      bound.prepare(status);
      const exact = orderCost(jobs, smithOrder(jobs));
      // The grid of log-odds may lose a little, but never gain.
      expect(bound.value(prior)).toBeLessThan(exact + 1e-9);
      expect(bound.value(prior)).toBeGreaterThan(exact * 0.98);
    }
  });

  it('is below the optimum however its costs are shared, and tuning never lowers it', () => {
    for (let start = 1; start <= 200; start++) {
      const model = smallModel(seeded(start));
      const instance = compileInstance(model);
      const prior = Float64Array.from(model.prior);
      const status = startStatus(instance);
      const optimum = bruteForce(model);
      for (const mostChecks of [0, 1, 6]) {
        const bound = new PairBound(instance, prior, status, { mostPairs: 100, mostChecks });
        bound.prepare(status);
        const before = bound.value(prior);
        const tuned = bound.tune(prior, status, 6);
        expect(before).toBeLessThan(optimum + 1e-7);
        expect(tuned).toBeLessThan(optimum + 1e-7);
        expect(tuned).toBeGreaterThanOrEqual(before);
      }
    }
  });
});
