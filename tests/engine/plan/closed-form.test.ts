import { describe, expect, it } from 'vitest';
import { bestPrefix, orderCost, outTreeOrder, smithOrder, type TreeJob } from '../../../src/engine/plan/closed-form.ts';
import { plan, type TroubleshootingModel } from '../../../src/engine/plan/index.ts';
import { bareModel, soleRepair } from './bare-model.ts';
import { seeded } from './seeded.ts';

/** A model with repairs only, cause i mended for certain by repair i, and a remainder that only handing over removes. */
function repairsOnly(weights: readonly number[], costs: readonly number[], handOverCost: number): TroubleshootingModel {
  const remainder = 1 - weights.reduce((sum, weight) => sum + weight, 0);
  const prior = [...weights, remainder];
  return { ...bareModel, prior, repairs: costs.map((cost, i) => soleRepair(i, prior.length, cost)), handOverCost };
}

function permutations(count: number): number[][] {
  if (count === 0) return [[]];
  return permutations(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, at) => [...order.slice(0, at), count - 1, ...order.slice(at)]),
  );
}

describe('orders known in closed form', () => {
  it('agree with the plan when there are repairs only', () => {
    for (let start = 1; start <= 60; start++) {
      const random = seeded(start);
      const count = 1 + Math.floor(random() * 7);
      const raw = Array.from({ length: count }, () => random() + 0.01);
      const total = raw.reduce((sum, weight) => sum + weight, 0) * (1.02 + random() * 0.3);
      const jobs = raw.map((weight) => ({ weight: weight / total, cost: 5 + random() * 80 }));
      const model = repairsOnly(
        jobs.map((job) => job.weight),
        jobs.map((job) => job.cost),
        60 + random() * 200,
      );
      const made = plan(model, { nodes: 5000 });
      expect(made.gap).toBe(0);
      expect(made.expectedCost).toBeCloseTo(bestPrefix(jobs, smithOrder(jobs), model.handOverCost).cost, 8);
    }
  });

  it('are the cheapest of all orders that respect the out-tree, set-ups being jobs of weight 0', () => {
    const orders = permutations(6);
    for (let start = 1; start <= 80; start++) {
      const random = seeded(start);
      const jobs = Array.from({ length: 6 }, (_, i): TreeJob => {
        const isSetUp = random() < 0.25;
        const parent = i > 0 && random() < 0.6 ? Math.floor(random() * i) : null;
        return { weight: isSetUp ? 0 : random(), cost: 1 + random() * 9, parent };
      });
      const weighed = (order: readonly number[]) => {
        let time = 0;
        return order.reduce((sum, job) => {
          time += jobs[job]?.cost ?? 0;
          return sum + (jobs[job]?.weight ?? 0) * time;
        }, 0);
      };
      const allowed = orders.filter((order) => jobs.every((job, i) => job.parent === null || order.indexOf(job.parent) < order.indexOf(i)));
      const best = Math.min(...allowed.map(weighed));
      const found = outTreeOrder(jobs);
      expect(allowed).toContainEqual(found);
      expect(weighed(found)).toBeCloseTo(best, 9);
    }
  });

  it('pay each job only while the work goes on', () => {
    const jobs = [
      { weight: 0.25, cost: 4 },
      { weight: 0.75, cost: 2 },
    ];
    expect(orderCost(jobs, [0, 1])).toBeCloseTo(4 + 0.75 * 2, 12);
    expect(smithOrder(jobs)).toEqual([1, 0]);
  });
});
