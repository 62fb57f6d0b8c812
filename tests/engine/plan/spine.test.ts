import { describe, expect, it } from 'vitest';
import {
  chanceSolvedBy,
  costDistribution,
  costQuantile,
  evaluatePolicy,
  spine,
  summarise,
  type TroubleshootingModel,
} from '../../../src/engine/plan/index.ts';
import { bareCheck, bareModel, bareRepair, soleRepair } from './bare-model.ts';
import { check, handOver as handingOver, repair } from './policy-nodes.ts';

const handOver = handingOver(100);

/**
 * Three causes; a look with three results behind a set-up of 5; a second look; a patch that holds in half of the cases; a sure repair
 * of the second cause that wants the engine warm.
 */
const MODEL: TroubleshootingModel = {
  ...bareModel,
  prior: [0.5, 0.3, 0.2],
  setUpCosts: [5],
  warmUpCost: 3,
  handOverCost: 100,
  checks: [
    { ...bareCheck('look', 2, [[0.8, 0.2, 0], [0.1, 0.9, 0], [0, 0.5, 0.5]]), setUps: [0] }, // biome-ignore format: a matrix
    bareCheck('again', 4, [[1, 0], [0, 1], [0, 1]]), // biome-ignore format: a matrix
  ],
  repairs: [
    { ...bareRepair('patch', 10, [0.5, 0, 0]), setUps: [0] },
    { ...soleRepair(1, 3, 20), engineState: 'warm' },
  ],
};
/**
 * Results of the look: 0.43 (0.4, 0.03, 0), 0.47 (0.1, 0.27, 0.1), 0.1 (0, 0, 0.1). The spine is the second: sure repair, patch, hand
 * over. The first result leads to the second look, the third to handing over.
 */
const POLICY = check(0, 7, [check(1, 4, [repair(0, 10, handOver), repair(1, 23, null)]), repair(1, 23, repair(0, 10, handOver)), handOver]);

describe('the spine of a policy, by hand', () => {
  const steps = () => spine(MODEL, POLICY);

  it('goes on with the likeliest result, a failed repair and handing over, at what each costs there', () => {
    expect(steps().map(({ kind, action, outcome, cost }) => [kind, action, outcome, cost])).toEqual([
      ['check', 0, 1, 7],
      ['repair', 1, null, 23],
      ['repair', 0, null, 10],
      ['hand-over', null, null, 100],
    ]);
  });

  it('says with what chance the job gets to each step, and leaves the spine there', () => {
    expect(rounded(steps().map(({ reach }) => reach))).toEqual([1, 0.47, 0.2, 0.15]);
    expect(rounded(steps().map(({ leaves }) => leaves))).toEqual([0.53, 0.27, 0.05, 0]);
  });

  it('says what is settled by the branches that leave, and in all', () => {
    // Off the look: the patch mends half of 0.4, the sure repair 0.03; handing over settles nothing.
    expect(rounded(steps().map(({ settles }) => settles))).toEqual([0.23, 0.27, 0.05, 0]);
    expect(rounded(steps().map(({ cumulativeChance }) => cumulativeChance))).toEqual([0.23, 0.5, 0.55, 0.55]);
  });

  it('adds up what the spine and all branches that have left it cost', () => {
    // First result: 0.43 x 4 + 0.4 x 10 + 0.2 x 100 + 0.03 x 23; third: 0.1 x 100.
    const first = 7 + 0.43 * 4 + 0.4 * 10 + 0.2 * 100 + 0.03 * 23 + 0.1 * 100;
    const second = first + 0.47 * 23;
    const third = second + 0.2 * 10;
    expect(rounded(steps().map(({ cumulativeCost }) => cumulativeCost))).toEqual(rounded([first, second, third, third + 0.15 * 100]));
    expect(evaluatePolicy(MODEL, POLICY)).toBeCloseTo(third + 0.15 * 100, 9);
  });

  it('takes the first of results that are equally likely but for rounding', () => {
    const even = bareCheck('even', 1, [[0.5 - 1e-14, 0.5 + 1e-14]]);
    const model = { ...bareModel, prior: [1], checks: [even], repairs: [bareRepair('sure', 10, [1])] };
    expect(spine(model, check(0, 1, [repair(0, 10, null), repair(0, 10, null)]))[0]?.outcome).toBe(0);
  });

  it('ends with a repair that surely ends the job', () => {
    const model = { ...bareModel, prior: [1], checks: [], repairs: [bareRepair('sure', 10, [1])] };
    expect(spine(model, repair(0, 10, null))).toEqual([
      { kind: 'repair', action: 0, outcome: null, cost: 10, reach: 1, leaves: 1, settles: 1, cumulativeChance: 1, cumulativeCost: 10 },
    ]);
  });

  it('leaves out a branch that cannot come up', () => {
    const sure = bareCheck('sure look', 1, [[1, 0]]);
    const model = { ...bareModel, prior: [1], checks: [sure], repairs: [bareRepair('sure', 10, [1])] };
    const [look] = spine(model, check(0, 1, [repair(0, 10, null), null]));
    expect(look).toMatchObject({ outcome: 0, leaves: 0, settles: 0, cumulativeCost: 1 });
  });
});

describe('the endings of a policy, by hand', () => {
  it('are every way for the job to end, by rising cost, those of like cost and kind added up', () => {
    expect(costDistribution(MODEL, POLICY).map(({ cost, probability, solved }) => [cost, Number(probability.toFixed(9)), solved])).toEqual([
      // Look, second look, patch.
      [21, 0.2, true],
      // Look, sure repair.
      [30, 0.27, true],
      // Look, second look, sure repair.
      [34, 0.03, true],
      // Look, sure repair, patch.
      [40, 0.05, true],
      // Look, hand over.
      [107, 0.1, false],
      // Look, second look, patch, hand over.
      [121, 0.2, false],
      // Look, sure repair, patch, hand over.
      [140, 0.15, false],
    ]);
  });

  it('lists solved before handed over where both cost the same', () => {
    const model = { ...bareModel, prior: [0.5, 0.5], checks: [], repairs: [bareRepair('half', 0, [1, 0])], handOverCost: 10 };
    const tied = { ...model, repairs: [bareRepair('free', 0, [1, 0]), soleRepair(1, 2, 10)] };
    expect(costDistribution(model, repair(0, 0, { kind: 'hand-over', cost: 10 })).map(({ solved }) => solved)).toEqual([true, false]);
    const both = repair(0, 0, repair(1, 10, null));
    expect(costDistribution(tied, both).map(({ cost }) => cost)).toEqual([0, 10]);
    const half = { ...bareModel, prior: [0.5, 0.5], repairs: [bareRepair('first', 10, [1, 0])], handOverCost: 10 };
    const look = { ...half, checks: [bareCheck('which', 0, [[1, 0], [0, 1]])] }; // biome-ignore format: a matrix
    const ends = costDistribution(look, check(0, 0, [repair(0, 10, null), { kind: 'hand-over', cost: 10 }]));
    expect(ends).toEqual([
      { cost: 10, probability: 0.5, solved: true },
      { cost: 10, probability: 0.5, solved: false },
    ]);
  });

  it('give the chance to be done for at most so much, without handing over', () => {
    const ends = costDistribution(MODEL, POLICY);
    expect(chanceSolvedBy(ends, 20.9)).toBe(0);
    expect(chanceSolvedBy(ends, 21)).toBeCloseTo(0.2, 9);
    expect(chanceSolvedBy(ends, 33.9)).toBeCloseTo(0.47, 9);
    expect(chanceSolvedBy(ends, 1000)).toBeCloseTo(0.55, 9);
  });

  it('give the least cost that the job stays within so often', () => {
    const ends = costDistribution(MODEL, POLICY);
    expect([0, 0.2, 0.21, 0.47, 0.5, 0.55, 0.65, 0.9, 1].map((chance) => costQuantile(ends, chance))).toEqual([
      ...[21, 21, 30, 30, 34, 40, 107, 140, 140],
    ]);
    expect(costQuantile([], 0.5)).toBe(0);
    expect(costQuantile([{ cost: 7, probability: 0.4, solved: true }], 0.9)).toBe(7);
    const { mean, median, ninetiethPercentile, solved } = summarise(ends);
    expect(mean).toBeCloseTo(evaluatePolicy(MODEL, POLICY), 9);
    expect([median, ninetiethPercentile]).toEqual([34, 140]);
    expect(solved).toBeCloseTo(0.55, 9);
  });
});

describe('a policy that breaks the rules of its model', () => {
  it('is refused: what is not open, and a result without a branch', () => {
    const again = check(0, 2, [handOver, handOver, handOver]);
    expect(() => evaluatePolicy(MODEL, check(0, 7, [again, again, again]))).toThrow('policy does check 0 where it is not open');
    expect(() => evaluatePolicy(MODEL, repair(0, 15, repair(0, 10, handOver)))).toThrow('policy tries repair 0 where it is not open');
    expect(() => evaluatePolicy(MODEL, repair(0, 15, null))).toThrow('policy has no branch for a result that can happen');
    expect(() => evaluatePolicy(MODEL, check(0, 7, [handOver, handOver]))).toThrow('policy has no branch for a result that can happen');
  });

  it('is taken at what it costs truly, whatever its nodes say', () => {
    expect(evaluatePolicy(MODEL, repair(0, 1, { kind: 'hand-over', cost: 1 }))).toBeCloseTo(15 + 0.75 * 100, 12);
  });
});

function rounded(list: readonly number[]): number[] {
  return list.map((x) => Number(x.toFixed(9)));
}
