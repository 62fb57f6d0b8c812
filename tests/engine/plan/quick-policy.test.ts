import { describe, expect, it } from 'vitest';
import { randomModel } from '../../../scripts/bench/random-models.ts';
import { Improver } from '../../../src/engine/plan/improve.ts';
import {
  type CheckAction,
  evaluatePolicy,
  type PolicyNode,
  plan,
  spine,
  type TroubleshootingModel,
} from '../../../src/engine/plan/index.ts';
import { compileInstance, startStatus } from '../../../src/engine/plan/instance.ts';
import { bareCheck, bareModel, soleRepair } from './bare-model.ts';
import { bruteForce } from './brute-force.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

/** Fewer nodes than a search starts from: the improved greedy policy alone. */
const QUICK = { nodes: 20 };

const check = (id: string, cost: number, likelihood: CheckAction['likelihood'], more: Partial<CheckAction> = {}): CheckAction => ({
  ...bareCheck(id, cost, likelihood),
  ...more,
});

const model = (
  prior: readonly number[],
  checks: readonly CheckAction[],
  repairCosts: readonly number[],
  more: Partial<TroubleshootingModel> = {},
): TroubleshootingModel => ({
  ...bareModel,
  prior,
  checks,
  repairs: repairCosts.map((cost, hypothesis) => soleRepair(hypothesis, prior.length, cost)),
  ...more,
});

const steps = (of: TroubleshootingModel, policy: PolicyNode): string[] =>
  spine(of, policy).map(({ kind, action }) => (kind === 'hand-over' ? kind : `${kind} ${action}`));

describe('the quick policy', () => {
  it('weighs a check together with what must come before it', () => {
    // Repairs alone: 50 + 0.5 x 50 = 75. The look tells nothing, so by itself it costs 1 for nothing; with the measurement
    // behind it the job costs 1 + 2 + 50 = 53.
    const look = check('look', 1, [[1], [1]]);
    const measure = check('measure', 2, [[1, 0], [0, 1]], { after: [0] }); // biome-ignore format: a matrix
    const made = plan(model([0.5, 0.5], [look, measure], [50, 50]), QUICK);
    expect(made.expectedCost).toBeCloseTo(53, 9);
  });

  it('leaves out the check of such a bundle where the result before it has settled the matter', () => {
    // The look shows the first cause in half of its cases: 1 + 0.25 x 50 + 0.75 x (2 + 50) = 52.5.
    const look = check('look', 1, [[0.5, 0.5], [0, 1]]); // biome-ignore format: a matrix
    const measure = check('measure', 2, [[1, 0], [0, 1]], { after: [0] }); // biome-ignore format: a matrix
    const made = plan(model([0.5, 0.5], [look, measure], [50, 50]), QUICK);
    expect(made.expectedCost).toBeCloseTo(52.5, 9);
    expect(made.policy).toMatchObject({
      kind: 'check',
      action: 0,
      next: [
        { kind: 'repair', action: 0 },
        { kind: 'check', action: 1 },
      ],
    });
  });

  it('weighs two checks behind the same set-up together', () => {
    // Repairs alone: 30 x (1 + 2/3 + 1/3) = 60. One check behind the set-up of 20: 20 + 1 + 1/3 x 30 + 2/3 x (30 + 1/2 x 30)
    // = 61, not worth it. Both: 20 + 1 + 1/3 x 30 + 2/3 x (1 + 30) = 51.67.
    const first = check('first', 1, [[1, 0], [0, 1], [0, 1]], { setUps: [0] }); // biome-ignore format: a matrix
    const second = check('second', 1, [[0, 1], [1, 0], [0, 1]], { setUps: [0] }); // biome-ignore format: a matrix
    const made = plan(model([1 / 3, 1 / 3, 1 / 3], [first, second], [30, 30, 30], { setUpCosts: [20] }), QUICK);
    expect(made.expectedCost).toBeCloseTo(20 + 1 + 10 + (2 / 3) * 31, 9);
  });

  it('makes a cheap, likely repair before a check that is worth doing only if the repair fails', () => {
    // The check saves 95 - 68 = 27 against repairs alone (5 + 0.6 x 100 + 0.3 x 100 = 95; with it 3 + 5 + 0.6 x 100 = 68).
    // Still it can wait: 5 + 0.6 x (3 + 100) = 66.8.
    const which = check('which', 3, [[0.5, 0.5], [1, 0], [0, 1]]); // biome-ignore format: a matrix
    const problem = model([0.4, 0.3, 0.3], [which], [5, 100, 100]);
    const made = plan(problem, QUICK);
    expect(made.expectedCost).toBeCloseTo(66.8, 9);
    expect(steps(problem, made.policy).slice(0, 2)).toEqual(['repair 0', 'check 0']);
  });

  it('drops a check that changes nothing, and hands over as soon as that is cheaper', () => {
    // Handing over costs 60; the repairs cost 50 and 100, so the second is worse than handing over, and the toss of a coin
    // tells nothing: the start costs 1 + 50 + 0.5 x (1 + 100) = 101.5 (two tosses), the repair and handing over 80, handing over at
    // once 60.
    const toss = (id: string) => check(id, 1, [[0.5, 0.5], [0.5, 0.5]]); // biome-ignore format: a matrix
    const problem = model([0.5, 0.5], [toss('one'), toss('two')], [50, 100], { handOverCost: 60 });
    const instance = compileInstance(problem);
    const improver = new Improver(instance, { leastReach: [0], tries: 2, changes: 8, mostWork: 1e6 });
    const last: PolicyNode = { kind: 'repair', action: 1, cost: 100, next: null };
    const tossAgain: PolicyNode = { kind: 'check', action: 1, cost: 1, next: [last, last] };
    const repair: PolicyNode = { kind: 'repair', action: 0, cost: 50, next: tossAgain };
    const start: PolicyNode = { kind: 'check', action: 0, cost: 1, next: [repair, repair] };
    expect(evaluatePolicy(problem, start)).toBeCloseTo(101.5, 9);
    const status = startStatus(instance);
    const root = improver.run(improver.trees.fromPolicy(start, Float64Array.from(problem.prior), status), status);
    expect(improver.trees.asPolicy(root, status)).toEqual({ kind: 'hand-over', cost: 60 });
  });

  it('has no check on its first steps whose leaving out would save', () => {
    let looked = 0;
    for (let start = 1; start <= 12; start++) {
      const problem = randomModel(10, 15, seeded(start));
      const made = plan(problem, QUICK);
      for (const shorter of withoutOneCheck(problem, made.policy)) {
        const cost = costIfAllowed(problem, shorter);
        if (cost === null) continue;
        looked++;
        expect(cost, `model ${start}`).toBeGreaterThan(made.expectedCost * 0.9999);
      }
    }
    expect(looked).toBeGreaterThan(20);
  });

  it('costs what it says, and within 2 % of the optimum on average where that is known', () => {
    let excess = 0;
    for (let start = 1; start <= 400; start++) {
      const problem = smallModel(seeded(start));
      const made = plan(problem, QUICK);
      const optimum = bruteForce(problem);
      expect(Math.abs(evaluatePolicy(problem, made.policy) - made.expectedCost), `model ${start}`).toBeLessThan(1e-7);
      expect(made.expectedCost).toBeGreaterThan(optimum - 1e-7);
      excess += made.expectedCost / optimum - 1;
    }
    expect(excess / 400).toBeLessThan(0.02);
  });

  it('is never cheaper than the plan of a larger budget', () => {
    for (let start = 1; start <= 5; start++) {
      const problem = randomModel(8, 12, seeded(start));
      const costs = [5, 20, 60].map((nodes) => plan(problem, { nodes }).expectedCost);
      for (let i = 1; i < costs.length; i++) expect(costs[i], `model ${start}`).toBeLessThan((costs[i - 1] as number) + 1e-9);
    }
  });
});

/** Policies in which one check of the first six steps of the spine is left out for what follows its likeliest result. */
function withoutOneCheck(problem: TroubleshootingModel, policy: PolicyNode): PolicyNode[] {
  const path = spine(problem, policy);
  const shorten = (node: PolicyNode, step: number, at: number): PolicyNode => {
    const outcome = path[step]?.outcome ?? 0;
    if (node.kind === 'hand-over') return node;
    const next = node.kind === 'check' ? node.next[outcome] : node.next;
    if (!next) return node;
    if (step === at) return next;
    const after = shorten(next, step + 1, at);
    if (node.kind === 'repair') return { ...node, next: after };
    return { ...node, next: node.next.map((branch, o) => (o === outcome ? after : branch)) };
  };
  return path.slice(0, 6).flatMap(({ kind }, at) => (kind === 'check' ? [shorten(policy, 0, at)] : []));
}

/** null where the policy does a check before what must come before it. */
function costIfAllowed(problem: TroubleshootingModel, policy: PolicyNode): number | null {
  try {
    return evaluatePolicy(problem, policy);
  } catch {
    return null;
  }
}
