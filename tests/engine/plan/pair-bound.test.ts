import { describe, expect, it } from 'vitest';
import { orderCost, smithOrder } from '../../../src/engine/plan/closed-form.ts';
import { compileInstance, startStatus } from '../../../src/engine/plan/instance.ts';
import type { TroubleshootingModel } from '../../../src/engine/plan/model.ts';
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

  // What is given away must be given before all else. Told only at the end, a cheap check could no longer spare a dear one.
  it('is below the optimum when it takes in fewer checks than tell the two hypotheses apart', () => {
    let below = 0;
    for (let start = 1; start <= 300; start++) {
      const model = twoHypotheses(seeded(start));
      const instance = compileInstance(model);
      const prior = Float64Array.from(model.prior);
      const status = startStatus(instance);
      const optimum = bruteForce(model);
      for (const mostChecks of [1, 2, 3]) {
        const tuned = new PairBound(instance, prior, status, { mostPairs: 1, mostChecks }).tune(prior, status, 5);
        expect(tuned).toBeLessThan(optimum * (1 + 1e-9));
        if (mostChecks < 3 && tuned < optimum * 0.99) below++;
      }
    }
    expect(below).toBeGreaterThan(50);
  });

  // A repair that also fixes the other cause ends the pair's problem, but for more than the cheapest way out.
  it('counts what a shared repair costs above the cheapest one', () => {
    const repair = (id: string, cost: number, fixes: readonly number[]) =>
      ({ id, cost, fixes, setUps: [], after: [], engineState: 'any', spoils: [] }) as const;
    const model: TroubleshootingModel = {
      prior: [0.5, 0.5],
      checks: [],
      repairs: [repair('first', 10, [1, 0]), repair('second', 10, [0, 1]), repair('both', 14, [1, 1])],
      setUpCosts: [],
      handOverCost: 1000,
      coolDownCost: 0,
      warmUpCost: 0,
      startsWarm: false,
      setUpsDone: [],
      checksDone: [],
      repairsTried: [],
    };
    const instance = compileInstance(model);
    const prior = Float64Array.from(model.prior);
    const status = startStatus(instance);
    const tuned = new PairBound(instance, prior, status, { mostPairs: 10, mostChecks: 6 }).tune(prior, status, 5);
    // One after the other costs 10 + 0.5 x 10 = 15; the one for both costs 14, which is 4 above knowing.
    expect(bruteForce(model)).toBeCloseTo(14, 9);
    expect(tuned).toBeGreaterThan(13.5);
    expect(tuned).toBeLessThan(14 + 1e-9);
  });
});

/** Two causes, one repair each, three checks of very different price and worth. */
function twoHypotheses(random: () => number): TroubleshootingModel {
  const row = (): number[] => {
    const raw = [0, 0, 0].map(() => random() ** 4 + 0.001);
    const sum = raw.reduce((total, x) => total + x, 0);
    return raw.map((x) => x / sum);
  };
  const p = random();
  return {
    prior: [p, 1 - p],
    checks: [0, 1, 2].map((check) => ({
      id: `check-${check}`,
      cost: 0.1 + 20 * random() ** 2,
      setUps: [],
      after: [],
      engineState: 'any',
      likelihood: [row(), row()],
      repeats: false,
      maxPerformances: 1,
    })),
    repairs: [0, 1].map((h) => ({
      id: `repair-${h}`,
      cost: 100 * random(),
      setUps: [],
      after: [],
      engineState: 'any',
      fixes: [h === 0 ? 1 : 0, h === 1 ? 1 : 0],
      spoils: [],
    })),
    setUpCosts: [],
    handOverCost: 200,
    coolDownCost: 0,
    warmUpCost: 0,
    startsWarm: false,
    setUpsDone: [],
    checksDone: [],
    repairsTried: [],
  };
}
