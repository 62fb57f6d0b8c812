import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CheckAction, plan, type TroubleshootingModel } from '../../../src/engine/plan/index.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

const ENOUGH = { nodes: 20_000 };
const models = fc.integer({ min: 1, max: 1_000_000 }).map((start) => smallModel(seeded(start)));
const RUNS = { numRuns: 150, seed: 20 };

const optimum = (model: TroubleshootingModel): number => plan(model, ENOUGH).expectedCost;

function scaled(model: TroubleshootingModel, factor: number): TroubleshootingModel {
  return {
    ...model,
    checks: model.checks.map((check) => ({ ...check, cost: check.cost * factor })),
    repairs: model.repairs.map((repair) => ({ ...repair, cost: repair.cost * factor })),
    setUpCosts: model.setUpCosts.map((cost) => cost * factor),
    handOverCost: model.handOverCost * factor,
    coolDownCost: model.coolDownCost * factor,
    warmUpCost: model.warmUpCost * factor,
  };
}

/** Hypotheses, checks and repairs in reverse; what comes before what is renumbered. */
function relabelled(model: TroubleshootingModel): TroubleshootingModel {
  const check = (index: number) => model.checks.length - 1 - index;
  const flip = <T>(list: readonly T[]): T[] => [...list].reverse();
  return {
    ...model,
    prior: flip(model.prior),
    checks: flip(model.checks).map((action) => ({ ...action, after: action.after.map(check), likelihood: flip(action.likelihood) })),
    repairs: flip(model.repairs).map((action) => ({
      ...action,
      after: action.after.map(check),
      spoils: action.spoils.map(check),
      fixes: flip(action.fixes),
    })),
    repairsTried: model.repairsTried.map((repair) => model.repairs.length - 1 - repair),
  };
}

const looks = (cost: number, model: TroubleshootingModel, random: () => number): CheckAction => ({
  id: 'another-look',
  cost,
  setUps: [],
  after: [],
  engineState: 'any',
  likelihood: model.prior.map(() => {
    const chance = random();
    return [chance, 1 - chance];
  }),
  repeats: false,
  maxPerformances: 1,
});

describe('an optimal plan', () => {
  it('gains or loses nothing when all costs are scaled, and keeps its first step', () => {
    fc.assert(
      fc.property(models, (model) => {
        const made = plan(model, ENOUGH);
        const twice = plan(scaled(model, 4), ENOUGH);
        expect(twice.expectedCost).toBeCloseTo(4 * made.expectedCost, 6);
        expect({ ...twice.policy, cost: 0, next: 0 }).toEqual({ ...made.policy, cost: 0, next: 0 });
      }),
      RUNS,
    );
  });

  it('costs the same under other labels', () => {
    fc.assert(
      fc.property(models, (model) => {
        expect(optimum(relabelled(model))).toBeCloseTo(optimum(model), 6);
      }),
      RUNS,
    );
  });

  it('is never dearer with one more check to choose from, and never dearer when that check is free: no information is worth less than nothing', () => {
    fc.assert(
      fc.property(models, fc.integer(), (model, start) => {
        const random = seeded(start);
        const before = optimum(model);
        const priced = optimum({ ...model, checks: [...model.checks, looks(5 * random(), model, random)] });
        const free = optimum({ ...model, checks: [...model.checks, looks(0, model, seeded(start))] });
        expect(priced).toBeLessThan(before + 1e-7);
        expect(free).toBeLessThan(before + 1e-7);
      }),
      RUNS,
    );
  });

  it('never begins with a check that another one beats at a lower price', () => {
    fc.assert(
      fc.property(models, fc.integer(), (model, start) => {
        const good = looks(1, model, seeded(start));
        // The worse check shows the result of the good one half the time and the toss of a coin otherwise.
        const worse: CheckAction = {
          ...good,
          id: 'worse',
          cost: 1.5,
          likelihood: good.likelihood.map(([p = 0]) => [p / 2 + 0.25, 0.75 - p / 2]),
        };
        const { policy } = plan({ ...model, checks: [...model.checks, worse, good] }, ENOUGH);
        expect(policy.kind === 'check' && policy.action === model.checks.length).toBe(false);
      }),
      RUNS,
    );
  });

  it('is the same, to the last digit, when made again', () => {
    fc.assert(
      fc.property(models, (model) => {
        expect(plan(model, { nodes: 40 })).toEqual(plan(model, { nodes: 40 }));
      }),
      { numRuns: 40, seed: 20 },
    );
  });

  it('never costs more than handing over at once', () => {
    fc.assert(
      fc.property(models, fc.integer({ min: 1, max: 100 }), (model, nodes) => {
        expect(plan(model, { nodes }).expectedCost).toBeLessThan(model.handOverCost + 1e-9);
      }),
      RUNS,
    );
  });
});
