import { describe, expect, it } from 'vitest';
import {
  cheapestFirst,
  comparePolicies,
  comparePolicyWith,
  likeliestFirst,
  replaceByLikelihood,
  strategyPolicy,
} from '../../../src/engine/plan/compare.ts';
import { evaluatePolicy, type PolicyNode, type TroubleshootingModel } from '../../../src/engine/plan/index.ts';
import { afterCheck, type Job, startJob } from '../../../src/engine/plan/job.ts';
import { bareCheck, bareModel, bareRepair, soleRepair } from './bare-model.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

/** Three causes; a look that tells the first from the others nine times in ten, a measurement that tells the second for sure. */
const look = (cost: number) => bareCheck('look', cost, [[0.9, 0.1], [0.1, 0.9], [0.1, 0.9]]); // biome-ignore format: a matrix
const measure = (cost: number) => bareCheck('measure', cost, [[0, 1], [1, 0], [0, 1]]); // biome-ignore format: a matrix
const coin = (cost: number) => bareCheck('coin', cost, [[0.5, 0.5], [0.5, 0.5], [0.5, 0.5]]); // biome-ignore format: a matrix
const THREE: TroubleshootingModel = {
  ...bareModel,
  prior: [0.5, 0.3, 0.2],
  repairs: [soleRepair(0, 3, 40), soleRepair(1, 3, 50), soleRepair(2, 3, 60)],
  handOverCost: 300,
};

describe('replacing parts by likelihood', () => {
  const choose = (model: TroubleshootingModel) => replaceByLikelihood(model, startJob(model));

  it('takes the repair with the greatest chance, whatever it costs, the first of equals', () => {
    expect(choose({ ...THREE, prior: [0.2, 0.5, 0.3], checks: [look(0)] })).toEqual({ kind: 'repair', action: 1 });
    expect(choose({ ...THREE, prior: [0.4, 0.4, 0.2] })).toEqual({ kind: 'repair', action: 0 });
    // A repair that may not hold counts for what it would fix: 0.5 x 0.5 against 0.3.
    const repairs = [bareRepair('half', 1, [0.5, 0, 0]), soleRepair(1, 3, 50)];
    expect(choose({ ...THREE, repairs })).toEqual({ kind: 'repair', action: 1 });
  });

  it('leaves out what was tried, and hands over when nothing is left', () => {
    expect(choose({ ...THREE, repairsTried: [0] })).toEqual({ kind: 'repair', action: 1 });
    expect(choose({ ...THREE, repairsTried: [0, 1, 2] })).toBeNull();
    expect(choose({ ...THREE, prior: [1, 0, 0], repairsTried: [0] })).toBeNull();
  });

  it('does the first check that must still come before the repair', () => {
    const checks = [look(1), { ...measure(1), after: [0] }];
    const model = { ...THREE, checks, repairs: THREE.repairs.map((repair) => ({ ...repair, after: [1] })) };
    expect(choose(model)).toEqual({ kind: 'check', action: 0 });
    expect(choose({ ...model, checksDone: [0] })).toEqual({ kind: 'check', action: 1 });
    expect(choose({ ...model, checksDone: [0, 1] })).toEqual({ kind: 'repair', action: 0 });
  });

  it('costs each part in turn, until as much is spent as handing over would have cost', () => {
    const costOf = (model: TroubleshootingModel) => evaluatePolicy(model, strategyPolicy(model, replaceByLikelihood));
    expect(costOf(THREE)).toBeCloseTo(40 + 0.5 * 50 + 0.2 * 60, 12);
    expect(costOf({ ...THREE, handOverCost: 90.5 })).toBeCloseTo(40 + 0.5 * 50 + 0.2 * 60, 12);
    expect(costOf({ ...THREE, handOverCost: 90 })).toBeCloseTo(40 + 0.5 * 50 + 0.2 * 90, 12);
  });
});

describe('the cheapest thing first', () => {
  const choose = (model: TroubleshootingModel) => cheapestFirst(model, startJob(model));

  it('takes the cheapest check or repair that can still tell or mend something', () => {
    expect(choose({ ...THREE, checks: [look(12), measure(9), coin(1)] })).toEqual({ kind: 'check', action: 1 });
    expect(choose({ ...THREE, checks: [look(45)] })).toEqual({ kind: 'repair', action: 0 });
    expect(choose({ ...THREE, checks: [look(40)] })).toEqual({ kind: 'check', action: 0 });
    // The measurement tells the second cause alone: nothing, once that is out of the question.
    expect(choose({ ...THREE, prior: [0.6, 0, 0.4], checks: [look(12), measure(9)] })).toEqual({ kind: 'check', action: 0 });
    expect(choose({ ...THREE, prior: [0, 0.5, 0.5] })).toEqual({ kind: 'repair', action: 1 });
  });

  it('counts what a set-up adds', () => {
    const behind = { ...measure(9), setUps: [0] };
    const model = { ...THREE, checks: [look(12), behind], setUpCosts: [5] };
    expect(choose(model)).toEqual({ kind: 'check', action: 0 });
    expect(choose({ ...model, setUpsDone: [0] })).toEqual({ kind: 'check', action: 1 });
  });

  it('leaves out what is not open, and what costs as much as handing over', () => {
    expect(choose({ ...THREE, checks: [look(12), { ...measure(9), after: [0] }] })).toEqual({ kind: 'check', action: 0 });
    expect(choose({ ...THREE, checks: [look(12), measure(9)], checksDone: [1] })).toEqual({ kind: 'check', action: 0 });
    expect(choose({ ...THREE, checks: [look(12)], handOverCost: 12 })).toBeNull();
    const waiting = THREE.repairs.map((repair) => ({ ...repair, after: [0] }));
    expect(choose({ ...THREE, checks: [coin(1)], repairs: waiting })).toBeNull();
  });

  it('repairs a cause at once that is confirmed: a chance of 0.8 or more to end the job', () => {
    expect(choose({ ...THREE, prior: [0.8, 0.15, 0.05], checks: [look(1)] })).toEqual({ kind: 'repair', action: 0 });
    expect(choose({ ...THREE, prior: [0.79, 0.15, 0.06], checks: [look(1)] })).toEqual({ kind: 'check', action: 0 });
    // 0.9 x 0.85 is less: the cause is near certain, that the repair holds is not.
    const repairs = [bareRepair('patch', 40, [0.85, 0, 0])];
    expect(choose({ ...THREE, prior: [0.9, 0.05, 0.05], repairs, checks: [look(1)] })).toEqual({ kind: 'check', action: 0 });
  });
});

describe('in the middle of a job, where beliefs add up to less than 1', () => {
  const model = { ...THREE, checks: [look(5), measure(9)] };
  const [good, bad] = afterCheck(model, startJob(model), 0) as [Job, Job];

  it('a cause counts as confirmed by its share of what is left', () => {
    // Good: 0.45 of 0.5. Bad: 0.27 of 0.5, which the measurement can still tell from the rest.
    expect(cheapestFirst(model, good)).toEqual({ kind: 'repair', action: 0 });
    expect(cheapestFirst(model, bad)).toEqual({ kind: 'check', action: 1 });
    expect(likeliestFirst(model, good)).toEqual({ kind: 'repair', action: 0 });
    expect(likeliestFirst(model, bad)).toEqual({ kind: 'check', action: 1 });
    expect(replaceByLikelihood(model, bad)).toEqual({ kind: 'repair', action: 1 });
  });

  it('what checks have cost counts towards giving up', () => {
    // The look for 5 and the first repair for 40: 45 spent.
    const after = (handOverCost: number) => {
      const policy = strategyPolicy({ ...THREE, checks: [look(5)], handOverCost }, likeliestFirst);
      return policy.kind === 'check' && policy.next[0]?.kind === 'repair' ? policy.next[0].next?.kind : null;
    };
    expect(after(45)).toBe('hand-over');
    expect(after(46)).toBe('repair');
  });
});

describe('the likeliest cause first', () => {
  const choose = (model: TroubleshootingModel) => likeliestFirst(model, startJob(model));

  it('does the check that says most about whether the likeliest repair would end the job, whatever it costs', () => {
    expect(choose({ ...THREE, checks: [measure(1), look(90)] })).toEqual({ kind: 'check', action: 1 });
    expect(choose({ ...THREE, prior: [0.3, 0.5, 0.2], checks: [look(1), measure(90)] })).toEqual({ kind: 'check', action: 1 });
    // Of two that say as much the first.
    expect(choose({ ...THREE, checks: [look(5), look(1)] })).toEqual({ kind: 'check', action: 0 });
  });

  it('repairs where no check that is open says anything about it', () => {
    expect(choose({ ...THREE, checks: [coin(1)] })).toEqual({ kind: 'repair', action: 0 });
    expect(choose({ ...THREE, checks: [look(1)], checksDone: [0] })).toEqual({ kind: 'repair', action: 0 });
    expect(choose({ ...THREE, checks: [coin(1), { ...look(1), after: [0] }] })).toEqual({ kind: 'repair', action: 0 });
  });

  it('repairs a confirmed cause at once, and hands over when no repair is left', () => {
    expect(choose({ ...THREE, prior: [0.8, 0.1, 0.1], checks: [look(1)] })).toEqual({ kind: 'repair', action: 0 });
    expect(choose({ ...THREE, repairsTried: [0, 1, 2], checks: [look(1)] })).toBeNull();
  });

  it('costs what its tree costs by hand', () => {
    // The look for 5: good 0.45 + 0.03 + 0.02 = 0.5, of which the first cause is 0.9; bad 0.05 + 0.27 + 0.18, the second likeliest.
    // No check is left: repairs by likelihood on either side.
    const model = { ...THREE, checks: [look(5)] };
    const good = 0.5 * 40 + 0.05 * 50 + 0.02 * 60;
    const bad = 0.5 * 50 + 0.23 * 60 + 0.05 * 40;
    expect(evaluatePolicy(model, strategyPolicy(model, likeliestFirst))).toBeCloseTo(5 + good + bad, 12);
  });

  it('goes on with repairs alone below a chance of one in a hundred', () => {
    // Good with 0.001 + 0.998 x 0.005: less than 0.01. Behind it a second look would still say something; it is not done.
    const rare = bareCheck('rare', 1, [[1, 0], [0.005, 0.995], [0.005, 0.995]]); // biome-ignore format: a matrix
    const model = { ...THREE, prior: [0.001, 0.5, 0.499], checks: [rare, measure(2)] };
    const first = strategyPolicy(model, () => ({ kind: 'check', action: 0 }));
    const after = (policy: PolicyNode) => (policy.kind === 'check' ? policy.next[0] : null);
    expect(after(first)).toMatchObject({ kind: 'repair', action: 1, next: { kind: 'repair', action: 2 } });
  });
});

describe('the comparison', () => {
  it('lists the computed order and four others, each with its policy, endings and summary', () => {
    const model = { ...THREE, checks: [look(5)] };
    const results = comparePolicies(model, { nodes: 500 });
    expect(results.map(({ strategy }) => strategy)).toEqual([
      ...['computed', 'cheapest-first', 'likeliest-first', 'replace-by-likelihood', 'hand-over-at-once'],
    ]);
    for (const { policy, expectedCost, summary, distribution } of results) {
      expect(expectedCost).toBeCloseTo(evaluatePolicy(model, policy), 9);
      expect(summary.mean).toBe(expectedCost);
      expect(distribution.reduce((sum, ending) => sum + ending.probability, 0)).toBeCloseTo(1, 9);
    }
    expect(results.at(-1)).toMatchObject({ policy: { kind: 'hand-over', cost: 300 }, expectedCost: 300 });
    expect(comparePolicyWith(model, results[0]?.policy as PolicyNode)).toEqual(results);
  });

  it('never lets a rule break a rule of the model, and lets none end with nothing done', () => {
    for (let start = 1; start <= 60; start++) {
      const model = smallModel(seeded(start), 2);
      for (const rule of [cheapestFirst, likeliestFirst, replaceByLikelihood]) {
        const policy = strategyPolicy(model, rule);
        expect(evaluatePolicy(model, policy)).toBeGreaterThan(0);
      }
    }
  });
});
