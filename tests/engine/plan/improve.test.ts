import { describe, expect, it } from 'vitest';
import { Improver, type ImproverOptions } from '../../../src/engine/plan/improve.ts';
import { evaluatePolicy, type PolicyNode, type TroubleshootingModel } from '../../../src/engine/plan/index.ts';
import { compileInstance, startStatus } from '../../../src/engine/plan/instance.ts';
import {
  afterCheck,
  afterFailedRepair,
  checkIsOpen,
  costNow,
  type Job,
  mass,
  repairIsOpen,
  startJob,
} from '../../../src/engine/plan/job.ts';
import { cheaper, improvedPolicy, quickPolicy } from '../../../src/engine/plan/quick-policy.ts';
import { bareCheck, bareModel, bareRepair, soleRepair } from './bare-model.ts';
import { bruteForce } from './brute-force.ts';
import { check, handOver, repair } from './policy-nodes.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

const FULL: ImproverOptions = { leastReach: [0], tries: 1, changes: 8, mostWork: 1e6 };

/** Two causes of equal chance, each with a repair of 50: 75 by repairs alone, 54 with a perfect look for 4. */
const TWO: TroubleshootingModel = {
  ...bareModel,
  prior: [0.5, 0.5],
  checks: [bareCheck('look', 4, [[1, 0], [0, 1]])], // biome-ignore format: a matrix
  repairs: [soleRepair(0, 2, 50), soleRepair(1, 2, 50)],
};
const BY_REPAIRS = repair(0, 50, repair(1, 50, null));

describe('improvement', () => {
  it('never costs more than before, and says what it costs, from whatever policy it begins', () => {
    let cheaper = 0;
    for (let start = 1; start <= 80; start++) {
      const random = seeded(start);
      const model = smallModel(random, 1);
      const policy = randomPolicy(model, startJob(model), random, 0);
      const before = evaluatePolicy(model, policy);
      for (const options of [FULL, { ...FULL, tries: 3, changes: 2 }, { ...FULL, leastReach: [0.3, 0.02] }]) {
        const { made, root } = improved(model, policy, options);
        expect(root.value, `model ${start}`).toBeLessThan(before * (1 + 1e-9));
        expect(evaluatePolicy(model, made), `model ${start}`).toBeCloseTo(root.value, 8);
        if (root.value < 0.99 * before) cheaper++;
      }
    }
    expect(cheaper).toBeGreaterThan(150);
  });

  it('comes from a policy drawn at random to within 2 % of the optimum on average', () => {
    let excess = 0;
    for (let start = 1; start <= 60; start++) {
      const random = seeded(start);
      const model = smallModel(random);
      const { root } = improved(model, randomPolicy(model, startJob(model), random, 0), { ...FULL, leastReach: [0, 0, 0], tries: 2 });
      excess += root.value / bruteForce(model) - 1;
    }
    expect(excess / 60).toBeLessThan(0.02);
    expect(excess).toBeGreaterThanOrEqual(0);
  });

  it('puts a check in, and takes a repair forward, where that is cheaper', () => {
    expect(improved(TWO, BY_REPAIRS).made).toEqual(check(0, 4, [repair(0, 50, null), repair(1, 50, null)]));
    // The likelier cause, for a tenth of the price, comes last: 100 + 0.6 x 10 and 10 + 0.4 x 100.
    const prior = [0.4, 0.6];
    const model = { ...TWO, prior, checks: [], repairs: [soleRepair(0, 2, 100), soleRepair(1, 2, 10)] };
    const { made, root } = improved(model, repair(0, 100, repair(1, 10, null)));
    expect(root.value).toBeCloseTo(10 + 0.4 * 100, 12);
    expect(made).toEqual(repair(1, 10, repair(0, 100, null)));
  });

  it('does not put in a check that saves less than a ten-thousandth of the job', () => {
    // Repairs alone 75; the look saves 25 - its price.
    const priced = (cost: number) => ({ ...TWO, checks: [bareCheck('look', cost, [[1, 0], [0, 1]])] }); // biome-ignore format: a matrix
    expect(improved(priced(25 - 0.009), BY_REPAIRS).made).toMatchObject({ kind: 'check' });
    expect(improved(priced(25 - 0.006), BY_REPAIRS).made).toMatchObject({ kind: 'repair' });
  });

  it('leaves a check out that saves nothing, however little it costs', () => {
    const coin = bareCheck('coin', 1e-6, [[0.5, 0.5], [0.5, 0.5]]); // biome-ignore format: a matrix
    const policy = check(0, 1e-6, [BY_REPAIRS, BY_REPAIRS]);
    expect(improved({ ...TWO, checks: [coin] }, policy).made).toEqual(BY_REPAIRS);
  });

  it('goes over to the repair sequence, or to handing over, where that is cheaper', () => {
    const dear = { ...TWO, checks: [], handOverCost: 60 };
    expect(improved(dear, BY_REPAIRS).made).toEqual(handOver(60));
    const handed = improved({ ...TWO, checks: [] }, handOver(1000));
    expect(handed.made).toEqual(BY_REPAIRS);
    expect(handed.root.value).toBeCloseTo(75, 12);
  });

  it('changes nothing at states that are reached too rarely', () => {
    // The look first; on its second result (0.45) a repair that can fix nothing there comes before the right one.
    const model = { ...TWO, prior: [0.55, 0.45], repairs: [...TWO.repairs, bareRepair('patch', 5, [0.05, 0])] };
    const rest = repair(1, 50, null);
    const policy = check(0, 4, [repair(0, 50, null), repair(2, 5, rest)]);
    const second = (leastReach: number[]) => improved(model, policy, { ...FULL, leastReach }).root.next[1]?.action;
    expect(second([0.46])).toBe(3);
    expect(second([0.44])).toBe(2);
    // One pass after another, each with its own least chance.
    expect(second([0.46, 0.44])).toBe(2);
  });

  it('makes so many changes at one state in a pass, and no more', () => {
    // Three causes; the cheapest and likeliest stands last, the dearest and least likely first.
    const prior = [0.1, 0.3, 0.6];
    const model = { ...bareModel, prior, repairs: [soleRepair(0, 3, 90), soleRepair(1, 3, 60), soleRepair(2, 3, 10)] };
    const policy = repair(0, 90, repair(1, 60, repair(2, 10, null)));
    expect(improved(model, policy, { ...FULL, changes: 0 }).made).toEqual(policy);
    expect(improved(model, policy).root.value).toBeCloseTo(10 + 0.4 * 60 + 0.1 * 90, 12);
  });

  it('stops when the work is spent, and when it is asked to', () => {
    const none = improved(TWO, BY_REPAIRS, { ...FULL, mostWork: 0 });
    expect(none.made).toEqual(BY_REPAIRS);
    expect(none.improver.trees.sequencer.made).toBe(0);
    let asked = 0;
    const stopped = improved(TWO, BY_REPAIRS, {
      ...FULL,
      stop: () => {
        asked++;
        return true;
      },
    });
    expect(stopped.made).toEqual(BY_REPAIRS);
    expect(asked).toBeGreaterThan(0);
    expect(improved(TWO, BY_REPAIRS, { ...FULL, stop: () => false }).root.value).toBeCloseTo(54, 12);
  });

  it('tries the best few moves in full, and keeps the cheapest', () => {
    const better = bareCheck('better', 2, [[1, 0], [0, 1]]); // biome-ignore format: a matrix
    const model = { ...TWO, checks: [...TWO.checks, better, bareCheck('worse', 6, [[1, 0], [0, 1]])] }; // biome-ignore format: a matrix
    for (const tries of [1, 2, 3]) expect(improved(model, BY_REPAIRS, { ...FULL, tries }).root).toMatchObject({ action: 1, value: 52 });
  });

  it('knows a result further on: the check is not done twice', () => {
    // Repair first, then the look, then the look again on one side; brought forward, its result holds wherever it stood.
    const third = { ...bareModel, prior: [0.2, 0.4, 0.4], repairs: [0, 1, 2].map((h) => soleRepair(h, 3, 50)) };
    const model = { ...third, checks: [bareCheck('look', 1, [[0.5, 0.5], [1, 0], [0, 1]])] }; // biome-ignore format: a matrix
    const late = repair(0, 50, check(0, 1, [repair(1, 50, null), repair(2, 50, null)]));
    const { made, root } = improved(model, late);
    expect(evaluatePolicy(model, made)).toBeCloseTo(root.value, 12);
    expect(root.value).toBeCloseTo(bruteForce(model), 9);
  });
});

describe('the quick policy as a whole', () => {
  it('is the cheaper of two, the first one where they cost the same', () => {
    const [dear, cheap] = [{ node: handOver(60), cost: 60 }, { node: handOver(50), cost: 50 }]; // biome-ignore format: a pair
    expect(cheaper(dear, cheap)).toBe(cheap);
    expect(cheaper(cheap, dear)).toBe(cheap);
    const like = { ...cheap };
    expect(cheaper(cheap, like)).toBe(cheap);
  });

  it('is the greedy one, improved; what cannot be improved comes back as it was', () => {
    const instance = compileInstance(TWO);
    const belief = Float64Array.from(TWO.prior);
    const status = startStatus(instance);
    const made = quickPolicy(instance, belief, status, FULL);
    expect(made.cost).toBeCloseTo(54, 12);
    expect(made.node).toEqual(check(0, 4, [repair(0, 50, null), repair(1, 50, null)]));
    expect(improvedPolicy(instance, made, belief, status, { ...FULL, stop: () => true })).toEqual(made);
    expect(quickPolicy(instance, belief, status, FULL, () => true).cost).toBeCloseTo(54, 12);
  });
});

function improved(model: TroubleshootingModel, policy: PolicyNode, options = FULL) {
  const instance = compileInstance(model);
  const status = startStatus(instance);
  const improver = new Improver(instance, options);
  improver.trees.leastReach = 0;
  const root = improver.run(improver.trees.fromPolicy(policy, Float64Array.from(model.prior), status), status);
  return { improver, root, made: improver.trees.asPolicy(root, status) };
}

/** A policy that keeps the rules of the model and nothing else: any open action at each state, or handing over. */
function randomPolicy(model: TroubleshootingModel, job: Job, random: () => number, depth: number): PolicyNode {
  const checks = model.checks.map((_, c) => c).filter((c) => checkIsOpen(model, job, c));
  const repairs = model.repairs.map((_, r) => r).filter((r) => repairIsOpen(model, job, r));
  const chosen = Math.floor(random() * (checks.length + repairs.length + 0.3));
  const next = (after: Job) => (mass(after) > 0 ? randomPolicy(model, after, random, depth + 1) : null);
  const action = checks[chosen] ?? repairs[chosen - checks.length];
  if (action === undefined || depth > 5) return handOver(model.handOverCost);
  if (chosen < checks.length) {
    const cost = costNow(model, job, model.checks[action] as (typeof model.checks)[number]);
    return check(action, cost, afterCheck(model, job, action).map(next));
  }
  const cost = costNow(model, job, model.repairs[action] as (typeof model.repairs)[number]);
  return repair(action, cost, next(afterFailedRepair(model, job, action)));
}
