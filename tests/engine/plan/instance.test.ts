import { describe, expect, it } from 'vitest';
import {
  compileInstance,
  fixedWeight,
  isOpen,
  markDone,
  removeFixed,
  startStatus,
  stepCost,
  updateByOutcome,
} from '../../../src/engine/plan/instance.ts';
import {
  afterCheck,
  afterFailedRepair,
  at,
  checkIsOpen,
  costNow,
  fixedBy,
  mass,
  repairIsOpen,
  startJob,
} from '../../../src/engine/plan/job.ts';
import { forcedChecks, KnownCosts } from '../../../src/engine/plan/known-cost.ts';
import { StateTable } from '../../../src/engine/plan/state-table.ts';
import { bareCheck, bareModel, bareRepair, soleRepair } from './bare-model.ts';
import { bruteForce } from './brute-force.ts';
import { placesOf, statusOf } from './places.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

describe('where a job stands, by hand', () => {
  const model = {
    ...bareModel,
    prior: [0.5, 0.3, 0.2],
    checks: [
      { ...bareCheck('look', 2, [[0.9, 0.1], [0.2, 0.8], [0.5, 0.5]]), setUps: [0] }, // biome-ignore format: a matrix
      { ...bareCheck('measure', 3, [[1], [1], [1]]), after: [0], engineState: 'warm' as const, repeats: true, maxPerformances: 2 },
    ],
    repairs: [
      { ...bareRepair('clean', 10, [0.8, 0, 0.5]), setUps: [0, 1, 1], spoils: [0] },
      { ...soleRepair(1, 3, 20), after: [1], engineState: 'cold' as const },
    ],
    setUpCosts: [5, 7],
    coolDownCost: 11,
    warmUpCost: 13,
  };

  it('starts with what has been done already', () => {
    const job = startJob({ ...model, checksDone: [1, 1], repairsTried: [1], setUpsDone: [0], startsWarm: true });
    expect(job).toEqual({
      ...{ belief: [0.5, 0.3, 0.2], performed: [0, 2], everDone: [false, true], tried: [false, true], paid: [true, false], warm: true },
    });
    expect(mass(job)).toBe(1);
  });

  it('pays a set-up once however often it is named, and a change of engine state when there is one', () => {
    const job = startJob(model);
    expect(costNow(model, job, at(model.checks, 0))).toBe(2 + 5);
    expect(costNow(model, job, at(model.checks, 1))).toBe(3 + 13);
    expect(costNow(model, job, at(model.repairs, 0))).toBe(10 + 5 + 7);
    expect(costNow(model, job, at(model.repairs, 1))).toBe(20);
    const warm = startJob({ ...model, startsWarm: true, setUpsDone: [0] });
    expect(costNow(model, warm, at(model.checks, 0))).toBe(2);
    expect(costNow(model, warm, at(model.checks, 1))).toBe(3);
    expect(costNow(model, warm, at(model.repairs, 1))).toBe(20 + 11);
  });

  it('opens what waits for a check once that is done, and closes what is used up', () => {
    const job = startJob(model);
    expect([checkIsOpen(model, job, 0), checkIsOpen(model, job, 1), repairIsOpen(model, job, 0), repairIsOpen(model, job, 1)]).toEqual([
      ...[true, false, true, false],
    ]);
    const [looked] = afterCheck(model, job, 0);
    if (!looked) throw new Error('no outcome');
    expect([checkIsOpen(model, looked, 0), checkIsOpen(model, looked, 1)]).toEqual([false, true]);
    const [once] = afterCheck(model, looked, 1);
    if (!once) throw new Error('no outcome');
    expect(once).toMatchObject({ warm: true, performed: [1, 1], paid: [true, false] });
    expect([checkIsOpen(model, once, 1), repairIsOpen(model, once, 1)]).toEqual([true, true]);
    const [twice] = afterCheck(model, once, 1);
    expect(twice && checkIsOpen(model, twice, 1)).toBe(false);
  });

  it('weighs hypotheses by a result, and takes from each what a failed repair would have fixed', () => {
    const [good, bad] = afterCheck(model, startJob(model), 0);
    expect(good?.belief).toEqual([0.45, 0.06, 0.1]);
    expect(bad?.belief.map((weight) => Number(weight.toFixed(12)))).toEqual([0.05, 0.24, 0.1]);
    if (!good) throw new Error('no outcome');
    const failed = afterFailedRepair(model, good, 0);
    expect(failed.belief.map((weight) => Number(weight.toFixed(12)))).toEqual([0.09, 0.06, 0.05]);
    // The repair spoils the reading: the look may be done again, and was done all the same.
    expect(failed).toMatchObject({ tried: [true, false], performed: [0, 0], everDone: [true, false], paid: [true, true], warm: false });
    expect(repairIsOpen(model, failed, 0)).toBe(false);
    expect(fixedBy(at(model.repairs, 0))).toEqual([0, 2]);
  });

  it('tells a missing element by number', () => {
    expect(() => at([1, 2], 2)).toThrow(new RangeError('no element 2 in a list of 2'));
  });
});

describe('the same job in typed arrays', () => {
  it('agrees with the plain form wherever a job may stand', () => {
    for (let start = 1; start <= 80; start++) {
      const random = seeded(start);
      const model = smallModel(random, start % 4);
      for (const { job, instance, belief, status } of placesOf(model, random)) {
        const total = mass(job);
        const name = `model ${start}`;
        model.checks.forEach((check, c) => {
          expect(isOpen(instance, status, c), name).toBe(checkIsOpen(model, job, c));
          expect(stepCost(instance, status, c), name).toBeCloseTo(costNow(model, job, check), 12);
          const nexts = afterCheck(model, job, c);
          expect(instance.outcomes[c]).toBe(nexts.length);
          const next = status.slice();
          markDone(instance, next, c);
          nexts.forEach((after, o) => {
            const posterior = new Float64Array(belief.length);
            expect(updateByOutcome(instance, belief, c, o, posterior), name).toBeCloseTo(mass(after) / total, 12);
            after.belief.forEach((weight, h) => {
              expect(posterior[h], name).toBeCloseTo(weight / total, 12);
            });
            expect(next, name).toEqual(statusOf(instance, after));
          });
        });
        model.repairs.forEach((repair, r) => {
          const action = model.checks.length + r;
          expect(isOpen(instance, status, action), name).toBe(repairIsOpen(model, job, r));
          expect(stepCost(instance, status, action), name).toBeCloseTo(costNow(model, job, repair), 12);
          const after = afterFailedRepair(model, job, r);
          const left = belief.slice();
          expect(fixedWeight(instance, belief, r), name).toBeCloseTo(1 - mass(after) / total, 12);
          expect(removeFixed(instance, left, r), name).toBeCloseTo(1 - mass(after) / total, 12);
          after.belief.forEach((weight, h) => {
            expect(left[h], name).toBeCloseTo(weight / total, 12);
          });
          const next = status.slice();
          markDone(instance, next, action);
          expect(next, name).toEqual(statusOf(instance, after));
        });
      }
    }
  });

  it('starts where the model says', () => {
    const model = { ...smallModel(seeded(3), 3), checksDone: [1, 1, 0], repairsTried: [2], setUpsDone: [], startsWarm: true };
    const instance = compileInstance(model);
    const status = startStatus(instance);
    expect([...status.slice(0, 3)]).toEqual([1, 2, 0]);
    expect(status).toEqual(statusOf(instance, startJob(model)));
    expect(startStatus(compileInstance({ ...model, startsWarm: false })).at(-1)).toBe(0);
  });

  it('knows the most outcomes of any check, and none where there is no check', () => {
    const three = bareCheck('three', 1, [[0.2, 0.3, 0.5]]);
    const model = { ...bareModel, prior: [1], checks: [bareCheck('two', 1, [[0.5, 0.5]]), three], repairs: [] };
    expect(compileInstance(model).mostOutcomes).toBe(3);
    expect(compileInstance({ ...model, checks: [] }).mostOutcomes).toBe(0);
  });

  it('refuses tables of the wrong shape, and says which', () => {
    const model = { ...bareModel, prior: [0.5, 0.5], repairs: [soleRepair(0, 2, 10)] };
    const withRows = (rows: number[][]) => () => compileInstance({ ...model, checks: [bareCheck('look', 1, rows)] });
    expect(withRows([[1, 0]])).toThrow(new RangeError('check look: 1 rows for 2 hypotheses'));
    expect(withRows([[1, 0], [1]])).toThrow(new RangeError('check look: rows of unequal length'));
    expect(() => compileInstance({ ...model, repairs: [bareRepair('hose', 1, [1])] })).toThrow(
      new RangeError('repair hose: 1 chances for 2 hypotheses'),
    );
  });
});

describe('what a job costs once the cause is known', () => {
  it('is the cheapest way out by hand: repairs by cost per chance, as long as each is cheaper than handing over', () => {
    // 10 for half a chance, 30 for a sure one; together 10 + 0.5 x 30 = 25, the sure one alone 30.
    const repairs = [bareRepair('sure', 30, [1]), bareRepair('half', 10, [0.5])];
    const model = { ...bareModel, prior: [1], repairs, handOverCost: 100 };
    expect(knownCost(model)).toBe(25);
    // The half chance costs 20 and more per fix: not worth it before a sure repair of 15, nor before handing over at 15.
    expect(knownCost({ ...model, repairs: [bareRepair('sure', 15, [1]), bareRepair('half', 10, [0.5])] })).toBe(15);
    expect(knownCost({ ...model, handOverCost: 15 })).toBe(15);
    expect(knownCost({ ...model, repairs: [], handOverCost: 70 })).toBe(70);
    expect(knownCost({ ...model, repairsTried: [0] })).toBe(10 + 0.5 * 100);
    expect(knownCost({ ...model, repairsTried: [1] })).toBe(30);
    // Of three the order counts, however they are listed: 10 for a half, then 20 for a half, then 100 for sure.
    const three = [bareRepair('sure', 100, [1]), bareRepair('dearer half', 20, [0.5]), bareRepair('half', 10, [0.5])];
    expect(knownCost({ ...model, handOverCost: 1000, repairs: three })).toBe(10 + 0.5 * (20 + 0.5 * 100));
  });

  it('charges set-ups and forced checks to the repair that comes first, unless they are paid and done', () => {
    const checks = [bareCheck('look', 3, [[1]]), { ...bareCheck('measure', 4, [[1]]), after: [0], setUps: [0] }];
    const model = {
      ...bareModel,
      ...{ prior: [1], checks, repairs: [{ ...bareRepair('hose', 20, [1]), after: [1], setUps: [1] }] },
      ...{ setUpCosts: [5, 6], handOverCost: 100 },
    };
    expect(knownCost(model)).toBe(20 + 3 + 4 + 5 + 6);
    expect(knownCost({ ...model, checksDone: [0], setUpsDone: [0] })).toBe(20 + 4 + 6);
    expect(knownCost({ ...model, checksDone: [0, 1] })).toBe(20 + 5 + 6);
    expect(knownCost({ ...model, checksDone: [1] })).toBe(20 + 3 + 5 + 6);
    expect(knownCost({ ...model, setUpsDone: [1] })).toBe(20 + 3 + 4 + 5);
    const instance = compileInstance(model);
    expect(forcedChecks(instance, 2)).toEqual([0, 1]);
    expect(forcedChecks(instance, 1)).toEqual([0]);
    expect(forcedChecks(instance, 0)).toEqual([]);
    const known = new KnownCosts(instance);
    // With all that paid and done the repair alone is left; a repair that cannot fix the cause leaves handing over.
    expect(known.ending(0, 0, startStatus(instance))).toBe(20);
    expect(known.ending(0, 7, startStatus(instance))).toBe(100);
    expect([known.fixes(0, 0), known.fixes(1, 0)]).toEqual([true, false]);
    const two = new KnownCosts(compileInstance({ ...model, repairs: [bareRepair('a', 1, [1]), bareRepair('b', 2, [1])] }));
    expect([two.fixes(0, 0), two.fixes(1, 0), two.fixes(2, 0)]).toEqual([true, true, false]);
    expect(known.expected([2], startStatus(instance))).toBe(2 * (20 + 3 + 4 + 5 + 6));
  });

  it('names each forced check once, each after its own', () => {
    const checks = [[], [0], [0], [1, 2]].map((after, c) => ({ ...bareCheck(`check-${c}`, 1, [[1]]), after }));
    const model = { ...bareModel, prior: [1], checks, repairs: [{ ...bareRepair('hose', 20, [1]), after: [3, 0] }] };
    expect(forcedChecks(compileInstance(model), 4)).toEqual([0, 1, 2, 3]);
  });

  it('is never above the optimum', () => {
    for (let start = 1; start <= 150; start++) {
      const model = smallModel(seeded(start));
      const instance = compileInstance(model);
      expect(new KnownCosts(instance).expected(model.prior, startStatus(instance))).toBeLessThan(bruteForce(model) + 1e-9);
    }
  });
});

describe('the table of states', () => {
  const status = Uint8Array.of(1, 0, 2);
  const belief = Float64Array.of(0.25, 0.75);

  it('finds a state again by belief and status, and beliefs that differ by rounding alone', () => {
    const table = new StateTable<string>();
    table.set(belief, status, 'here');
    expect(table.get(Float64Array.of(0.25 + 1e-13, 0.75 - 1e-13), status.slice())).toBe('here');
    expect(table.size).toBe(1);
  });

  it('finds nothing for another belief or another status', () => {
    const table = new StateTable<string>();
    expect(table.get(belief, status)).toBeUndefined();
    table.set(belief, status, 'here');
    expect(table.get(Float64Array.of(0.75, 0.25), status)).toBeUndefined();
    expect(table.get(Float64Array.of(0.25 + 1e-10, 0.75 - 1e-10), status)).toBeUndefined();
    expect(table.get(belief, Uint8Array.of(0, 1, 2))).toBeUndefined();
  });

  it('keeps states apart that are nearer than its marks tell', () => {
    const table = new StateTable<string>();
    const near = Float64Array.of(0.25 + 1e-10, 0.75 - 1e-10);
    table.set(belief, status, 'here');
    table.set(near, status, 'near');
    expect([table.get(belief, status), table.get(near, status)]).toEqual(['here', 'near']);
    expect(table.size).toBe(2);
  });

  it('keeps thousands of states apart', () => {
    const table = new StateTable<number>();
    const random = seeded(7);
    const states = Array.from({ length: 3000 }, () => {
      const p = random();
      return { belief: Float64Array.of(p, 1 - p), status: Uint8Array.of(Math.floor(random() * 3), Math.floor(random() * 3)) };
    });
    states.forEach((state, i) => {
      table.set(state.belief, state.status, i);
    });
    expect(table.size).toBe(3000);
    states.forEach((state, i) => {
      expect(table.get(state.belief, state.status)).toBe(i);
    });
  });
});

function knownCost(model: Parameters<typeof compileInstance>[0]): number {
  const instance = compileInstance(model);
  return new KnownCosts(instance).of(0, startStatus(instance));
}
