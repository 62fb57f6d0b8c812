/** Reasons of steps, worked out by hand: exchange of two neighbours, and a step against handing over (common practice, no source). */
import { describe, expect, it } from 'vitest';
import { explain } from '../../../src/engine/plan/explain.ts';
import type { PolicyNode, TroubleshootingModel } from '../../../src/engine/plan/model.ts';
import { bareCheck, bareModel, bareRepair, soleRepair } from './bare-model.ts';
import { check, handOver, repair } from './policy-nodes.ts';

describe('the reasons of two repairs that share an access', () => {
  const model: TroubleshootingModel = {
    ...bareModel,
    prior: [0.5, 0.3, 0.2],
    setUpCosts: [10],
    repairs: [
      { ...soleRepair(0, 3, 20), setUps: [0] },
      { ...soleRepair(1, 3, 30), setUps: [0] },
    ],
    handOverCost: 100,
  };
  const explained = () => explain(model, repair(0, 30, repair(1, 30, handOver(100))));

  it('count chances and costs from where the step stands', () => {
    const reasons = explained();
    // 30 + 0.5 x 30 + 0.2 x 100 = 65; after the first has failed, (65 - 30) / 0.5.
    expect(rounded(reasons.map(({ costToGo }) => costToGo))).toEqual([65, 70, 100]);
    expect(rounded(reasons.map(({ leaves }) => leaves))).toEqual([0.5, 0.6, 0]);
    expect(reasons.map(({ valueOfInformation }) => valueOfInformation)).toEqual([null, null, null]);
  });

  it('exchange neighbours with the access paid by whichever comes first', () => {
    const reasons = explained();
    // The other way round: 40 + 0.7 x 20 = 54, against 30 + 0.5 x 30 = 45.
    expect(reasons[0]?.against?.saves).toBeCloseTo(9, 9);
    // x + 0.5 x 30 = 40 + 0.7 (x - 10) at x = 60; 30 + s x 30 = 54 at s = 0.8.
    expect(reasons[0]?.against?.breakEvenPrice).toBeCloseTo(60, 9);
    expect(reasons[0]?.against?.breakEvenChance).toBeCloseTo(0.2, 9);
  });

  it('set the last one against handing over now', () => {
    const reasons = explained();
    // 30 + 0.4 x 100 = 70 against 100; x + 40 = 100 at x = 60; 30 + (1 - q) x 100 = 100 at q = 0.3.
    expect(reasons[1]?.against?.saves).toBeCloseTo(30, 9);
    expect(reasons[1]?.against?.breakEvenPrice).toBeCloseTo(60, 9);
    expect(reasons[1]?.against?.breakEvenChance).toBeCloseTo(0.3, 9);
    expect(reasons[2]?.against).toBeNull();
  });
});

describe('the value of information', () => {
  it('is reckoned with what is tried, paid, done and warm where the check stands', () => {
    const model: TroubleshootingModel = {
      ...bareModel,
      prior: [0.4, 0.35, 0.25],
      setUpCosts: [12],
      warmUpCost: 7,
      coolDownCost: 11,
      checks: [
        bareCheck('look', 5, [
          [0.5, 0.5],
          [0.9, 0.1],
          [0.2, 0.8],
        ]),
      ],
      repairs: [
        { ...soleRepair(0, 3, 10), setUps: [0], engineState: 'warm' },
        { ...soleRepair(1, 3, 50), setUps: [0], engineState: 'warm' },
        { ...soleRepair(2, 3, 60), after: [0] },
      ],
    };
    const both = (first: number, second: number): PolicyNode => repair(first, [10, 50, 60][first] ?? 0, repair(second, 0, handOver(1000)));
    const look: PolicyNode = check(0, 5, [both(1, 2), both(2, 1)]);
    const [, reason] = explain(model, repair(0, 29, look));
    // Untold: 0.6 x 50 + 0.25 x 60 = 45. Told: 0.365 x 50 + 0.05 x 60 = 21.25, and 0.235 x 60 + 0.035 x 50 = 15.85.
    expect(reason?.valueOfInformation).toBeCloseTo((45 - 21.25 - 15.85) / 0.6, 9);
    expect(reason?.leaves).toBeCloseTo(0.235 / 0.6, 9);
  });

  it('is never below nothing, and nothing where the result changes nothing', () => {
    const model: TroubleshootingModel = {
      ...bareModel,
      prior: [0.9, 0.1],
      checks: [bareCheck('idle look', 5, [[0.5, 0.5], [0.5, 0.5]])], // biome-ignore format: a row a line says less
      repairs: [soleRepair(0, 2, 10), soleRepair(1, 2, 10)],
    };
    const rest = repair(0, 10, repair(1, 10, handOver(1000)));
    expect(explain(model, check(0, 5, [rest, rest]))[0]?.valueOfInformation).toBeCloseTo(0, 9);
  });
});

describe('a step against the one after it', () => {
  const two = (first: Partial<{ cost: number; fixes: number[] }>, second: Partial<{ cost: number; fixes: number[] }>) => {
    const model: TroubleshootingModel = {
      ...bareModel,
      prior: [0.5, 0.3, 0.2],
      repairs: [bareRepair('a', first.cost ?? 20, first.fixes ?? [1, 0, 0]), bareRepair('b', second.cost ?? 30, second.fixes ?? [0, 1, 0])],
    };
    const [a, b] = model.repairs.map(({ cost }) => cost) as [number, number];
    return explain(model, repair(0, a, repair(1, b, handOver(1000))))[0]?.against;
  };

  it('has no break-even price where the other settles nothing', () => {
    expect(two({}, { fixes: [0, 0, 0] })?.breakEvenPrice).toBeNull();
  });

  it('has no break-even chance where it costs nothing, where the other does, or where no chance makes up for its price', () => {
    expect(two({ cost: 0 }, {})?.breakEvenChance).toBeNull();
    expect(two({}, { cost: 0 })?.breakEvenChance).toBeNull();
    // 1 + 0.7 x 50 = 36 is below the 50 that the first costs alone.
    expect(two({ cost: 50 }, { cost: 1 })?.breakEvenChance).toBeNull();
    expect(two({ cost: 50 }, { cost: 1 })?.saves).toBeCloseTo(36 - 50.5, 9);
  });

  it('does not change places with one that must come after it', () => {
    const model: TroubleshootingModel = {
      ...bareModel,
      prior: [0.5, 0.5],
      checks: [bareCheck('look', 5, [[0.9, 0.1], [0.2, 0.8]])], // biome-ignore format: a row a line says less
      repairs: [{ ...soleRepair(0, 2, 20), after: [0] }, soleRepair(1, 2, 20)],
    };
    const rest = repair(0, 20, repair(1, 20, handOver(1000)));
    const [look, first] = explain(model, check(0, 5, [rest, rest]));
    expect(look?.against).toBeNull();
    expect(first?.against).not.toBeNull();
  });
});

describe('a repair against the check after it', () => {
  // The second half of a job: a repair of the last cause has failed, so that every chance seen from the start is half of what it is here.
  const model: TroubleshootingModel = {
    ...bareModel,
    prior: [0.2, 0.15, 0.15, 0.5],
    checks: [bareCheck('which', 3, [[0.5, 0.5], [1, 0], [0, 1], [1, 0]])], // biome-ignore format: a matrix
    repairs: [soleRepair(0, 4, 5), soleRepair(1, 4, 100), soleRepair(2, 4, 100), soleRepair(3, 4, 1)],
  };
  const which: PolicyNode = check(0, 3, [repair(1, 100, handOver(1000)), repair(2, 100, handOver(1000))]);
  const reason = () => explain(model, repair(3, 1, repair(0, 5, which)))[1];

  it('is exchanged with it, its likeliest result being what goes on', () => {
    // Check first: 3 + 0.5 x 5; repair first: 5 + 0.6 x 3.
    expect(reason()?.against?.saves).toBeCloseTo(5.5 - 6.8, 9);
    // x + 0.6 x 3 = 3 + 0.5 x at x = 2.4; 5 + s x 3 = 5.5 at s = 1/6.
    expect(reason()?.against?.breakEvenPrice).toBeCloseTo(2.4, 9);
    expect(reason()?.against?.breakEvenChance).toBeCloseTo(5 / 6, 9);
  });
});

describe('the value of information after a repair that did not hold', () => {
  it('is reckoned without that repair', () => {
    const model: TroubleshootingModel = {
      ...bareModel,
      prior: [0.6, 0.4],
      checks: [bareCheck('look', 5, [[1, 0], [0, 1]])], // biome-ignore format: a matrix
      repairs: [bareRepair('patch', 10, [0.5, 0]), soleRepair(0, 2, 40), soleRepair(1, 2, 50)],
    };
    const look: PolicyNode = check(0, 5, [repair(1, 40, handOver(1000)), repair(2, 50, handOver(1000))]);
    const [, reason] = explain(model, repair(0, 10, look));
    // Left are 0.3 and 0.4. Untold: 0.7 x 50 + 0.3 x 40 = 47. Told: 0.3 x 40 + 0.4 x 50 = 32.
    expect(reason?.valueOfInformation).toBeCloseTo((47 - 32) / 0.7, 9);
  });
});

describe('a check against handing over now', () => {
  const reasonOf = (checkCost: number, repairCost: number) => {
    const model: TroubleshootingModel = {
      ...bareModel,
      prior: [0.3, 0.7],
      checks: [bareCheck('look', checkCost, [[0.1, 0.9], [0.95, 0.05]])], // biome-ignore format: a row a line says less
      repairs: [soleRepair(0, 2, repairCost)],
      handOverCost: 200,
    };
    const found = repair(0, repairCost, handOver(200));
    return explain(model, check(0, checkCost, [handOver(200), found]))[0]?.against;
  };

  it('saves what its branch saves, and may cost so much more', () => {
    // 10 + 0.695 x 200 + 0.305 x 20 + 0.035 x 200 = 162.1.
    expect(reasonOf(10, 20)?.saves).toBeCloseTo(37.9, 9);
    expect(reasonOf(10, 20)?.breakEvenPrice).toBeCloseTo(47.9, 9);
    // A branch saves 200 - 13.1 / 0.305 each time that it is taken.
    expect(reasonOf(10, 20)?.breakEvenChance).toBeCloseTo(10 / (200 - 13.1 / 0.305), 9);
  });

  it('has no break-even chance where no chance is enough', () => {
    expect(reasonOf(170, 20)?.breakEvenChance).toBeNull();
    expect(reasonOf(170, 20)?.breakEvenPrice).toBeCloseTo(47.9, 9);
    expect(reasonOf(10, 2000)?.breakEvenChance).toBeNull();
    expect(reasonOf(10, 2000)?.breakEvenPrice).toBe(0);
  });
});

function rounded(list: readonly number[]): number[] {
  return list.map((x) => Number(x.toFixed(9)));
}
