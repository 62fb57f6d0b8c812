import { describe, expect, it } from 'vitest';
import { randomModel } from '../../../scripts/bench/random-models.ts';
import { compileInstance, startStatus } from '../../../src/engine/plan/instance.ts';
import { afterCheck, afterFailedRepair, costNow, type Job, mass } from '../../../src/engine/plan/job.ts';
import type { TroubleshootingModel } from '../../../src/engine/plan/model.ts';
import { RepairSequencer } from '../../../src/engine/plan/repair-sequence.ts';
import { bareCheck, bareModel, bareRepair, soleRepair } from './bare-model.ts';
import { type Place, placesOf } from './places.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

describe('the repair sequence', () => {
  it('takes repairs by falling chance per cost and hands over at the best moment', () => {
    // 0.5/20 and 0.3/20 beat 0.2/90. After two repairs 0.2 is left: the third would cost 0.2 x 90 = 18, handing over 0.2 x 80 = 16.
    const { cost, actions } = sequenceAtStart({ ...bareModel, ...causes([0.3, 0.5, 0.2], [20, 20, 90]), handOverCost: 80 });
    expect(actions).toEqual([1, 0]);
    expect(cost).toBeCloseTo(20 + 0.5 * 20 + 0.2 * 80, 12);
  });

  it('looks past a repair that does not pay by itself to one that does with it', () => {
    // Handing over costs 100. The first repair alone: 95 + 0.05 x 100 = 100. But one set-up of 90 serves all three, each costs 5:
    // 95 + 0.6 x 5 + 0.3 x 5 = 99.5.
    const model = { ...bareModel, ...causes([0.4, 0.3, 0.3], [5, 5, 5]), setUpCosts: [90], handOverCost: 100 };
    const repairs = model.repairs.map((repair) => ({ ...repair, setUps: [0] }));
    const { cost, actions } = sequenceAtStart({ ...model, repairs });
    expect(actions).toEqual([0, 1, 2]);
    expect(cost).toBeCloseTo(95 + 0.6 * 5 + 0.3 * 5, 12);
    // The same where a free check must come first.
    const forced = {
      ...model,
      checks: [bareCheck('look', 0, [[1], [1], [1]])],
      repairs: repairs.map((repair) => ({ ...repair, after: [0] })),
    };
    expect(sequenceAtStart(forced)).toMatchObject({ actions: [0, 1, 2, 3], cost });
  });

  it('looks past a repair that has to warm the engine up to those that then find it warm', () => {
    const model = { ...bareModel, ...causes([0.4, 0.3, 0.3], [5, 5, 5]), warmUpCost: 90, handOverCost: 100 };
    const repairs = model.repairs.map((repair) => ({ ...repair, engineState: 'warm' as const }));
    expect(sequenceAtStart({ ...model, repairs }).cost).toBeCloseTo(95 + 0.6 * 5 + 0.3 * 5, 12);
  });

  it('does the checks that must come before a repair, each after its own, and pays for them', () => {
    const look = bareCheck('look', 3, [[1], [1]]);
    const measure = { ...bareCheck('measure', 4, [[1], [1]]), after: [0] };
    const model = { ...bareModel, ...causes([0.9, 0.1], [10, 50]), checks: [look, measure] };
    const repairs = model.repairs.map((repair, r) => (r === 0 ? { ...repair, after: [1] } : repair));
    const { cost, actions, costs } = sequenceAtStart({ ...model, repairs });
    expect(actions).toEqual([0, 1, 2, 3]);
    expect(costs).toEqual([3, 4, 10, 50]);
    expect(cost).toBeCloseTo(17 + 0.1 * 50, 12);
  });

  it('lets a cold engine cool down once, and warm up once', () => {
    // Repair 0 wants it warm, 1 and 2 cold. Started warm: 0 first (10 + 0), then cool down (8) and 1, then 2.
    const model = { ...bareModel, ...causes([0.4, 0.3, 0.3], [10, 10, 10]), coolDownCost: 8, warmUpCost: 3, startsWarm: true };
    const repairs = model.repairs.map((repair, r) => ({ ...repair, engineState: r === 0 ? ('warm' as const) : ('cold' as const) }));
    expect(sequenceAtStart({ ...model, repairs })).toMatchObject({ actions: [0, 1, 2], costs: [10, 18, 10] });
    // Started cold: 0.4 / 13 = 0.0308 still beats 0.3 / 10 = 0.03.
    expect(sequenceAtStart({ ...model, repairs, startsWarm: false })).toMatchObject({ actions: [0, 1, 2], costs: [13, 18, 10] });
    // With a dearer warm-up it waits for the others, which are cold already.
    expect(sequenceAtStart({ ...model, repairs, startsWarm: false, warmUpCost: 20 })).toMatchObject({
      actions: [1, 2, 0],
      costs: [10, 10, 30],
    });
  });

  it('tries a repair that did not hold no second time, and counts what a shared repair has taken from another', () => {
    // The first fixes both causes but holds in half of the cases only; each sole repair then has half of its chance left.
    const repairs = [bareRepair('both', 5, [0.5, 0.5]), soleRepair(0, 2, 20), soleRepair(1, 2, 30)];
    const { cost, actions } = sequenceAtStart({ ...bareModel, prior: [0.5, 0.5], repairs });
    expect(actions).toEqual([0, 1, 2]);
    expect(cost).toBeCloseTo(5 + 0.5 * 20 + 0.25 * 30, 12);
  });

  it('is handing over alone where no repair pays, where all are tried, and where none can fix what is left', () => {
    const model = { ...bareModel, ...causes([0.5, 0.5], [200, 200]), handOverCost: 100 };
    expect(sequenceAtStart(model)).toMatchObject({ cost: 100, actions: [] });
    expect(sequenceAtStart({ ...model, handOverCost: 1000, repairsTried: [0, 1] })).toMatchObject({ cost: 1000, actions: [] });
    expect(sequenceAtStart({ ...model, handOverCost: 1000, repairs: [] })).toMatchObject({ cost: 1000, actions: [] });
  });

  it('is what a plain reckoning of the same rule finds, wherever a job may stand', () => {
    let forced = 0;
    let places = 0;
    for (let start = 1; start <= 150; start++) {
      const random = seeded(start);
      const model = smallModel(random, start % 4);
      const sequencer = new RepairSequencer(compileInstance(model));
      for (const place of placesOf(model, random)) {
        compareWithPlain(sequencer, place, `model ${start}`);
        if (model.repairs.some((repair, r) => !place.job.tried[r] && repair.after.some((check) => !place.job.everDone[check]))) forced++;
        places++;
      }
    }
    for (let start = 1; start <= 12; start++) {
      const random = seeded(start);
      const model = randomModel(12, 6, random);
      const sequencer = new RepairSequencer(compileInstance(model));
      for (const place of placesOf(model, random)) compareWithPlain(sequencer, place, `larger model ${start}`);
    }
    expect(forced).toBeGreaterThan(100);
    expect(places - forced).toBeGreaterThan(200);
  });

  it('is that where changes of engine state are dear, with checks to be done first and without', () => {
    for (let start = 1; start <= 120; start++) {
      const random = seeded(start);
      const drawn = smallModel(random, 3);
      const costs = { coolDownCost: 60 * random(), warmUpCost: 60 * random(), handOverCost: 400 };
      const repairs = drawn.repairs.map((repair) => ({ ...repair, after: start % 3 === 0 ? repair.after : [] }));
      const model = { ...drawn, ...costs, repairs };
      const sequencer = new RepairSequencer(compileInstance(model));
      for (const place of placesOf(model, random, 3)) compareWithPlain(sequencer, place, `model ${start}`);
    }
  });

  it('grows with the weight of the belief, and with nothing else', () => {
    for (let start = 1; start <= 40; start++) {
      const random = seeded(start);
      const model = smallModel(random, 2);
      for (const { instance, belief, status } of placesOf(model, random, 3)) {
        const sequencer = new RepairSequencer(instance);
        const whole = sequencer.cost(belief, status, 1);
        const third = sequencer.cost(
          belief.map((weight) => weight / 3),
          status,
          1 / 3,
        );
        expect(third).toBeCloseTo(whole / 3, 9);
      }
    }
  });

  it('gives up on what is certain to cost more than enough, and on nothing else', () => {
    let spared = 0;
    for (let start = 1; start <= 100; start++) {
      const random = seeded(start);
      const model = smallModel(random, 3);
      for (const { instance, belief, status } of placesOf(model, random, 3)) {
        const sequencer = new RepairSequencer(instance);
        const exact = sequencer.cost(belief, status, 1);
        for (const share of [0.2, 0.6, 0.9, 0.999, 1.001, 1.5]) {
          const enough = share * exact;
          const found = sequencer.costPrepared(belief, 1, enough);
          if (share < 1) expect(found).toBeGreaterThanOrEqual(enough);
          else expect(found).toBe(exact);
          if (share < 1 && found !== exact) spared++;
        }
      }
    }
    expect(spared).toBeGreaterThan(40);
  });

  it('counts the sequences that it makes', () => {
    const model = { ...bareModel, ...causes([0.5, 0.5], [20, 20]) };
    const instance = compileInstance(model);
    const sequencer = new RepairSequencer(instance);
    sequencer.cost(Float64Array.from(model.prior), startStatus(instance), 1);
    sequencer.costPrepared(Float64Array.from([1, 0]), 1);
    expect(sequencer.made).toBe(2);
  });
});

function causes(prior: readonly number[], costs: readonly number[]): Pick<TroubleshootingModel, 'prior' | 'repairs'> {
  return { prior, repairs: costs.map((cost, hypothesis) => soleRepair(hypothesis, prior.length, cost)) };
}

function sequenceAtStart(model: TroubleshootingModel): { cost: number; actions: number[]; costs: number[] } {
  const instance = compileInstance(model);
  return sequenceOf(new RepairSequencer(instance), Float64Array.from(model.prior), startStatus(instance));
}

function sequenceOf(sequencer: RepairSequencer, belief: Float64Array, status: Uint8Array) {
  const cost = sequencer.cost(belief, status, 1);
  return { cost, actions: [...sequencer.actions.slice(0, sequencer.length)], costs: [...sequencer.costs.slice(0, sequencer.length)] };
}

function compareWithPlain(sequencer: RepairSequencer, { model, job, belief, status }: Place, name: string): void {
  const found = sequenceOf(sequencer, belief, status);
  const plain = plainSequence(model, { ...job, belief: [...belief] });
  expect(found.actions, name).toEqual(plain.actions);
  expect(found.cost, name).toBeCloseTo(plain.cost, 9);
  found.costs.forEach((cost, k) => {
    expect(cost, name).toBeCloseTo(plain.costs[k] as number, 9);
  });
}

/** The rule as it reads: every repair that can still fix something, by falling chance per cost, then the best of all prefixes. */
function plainSequence(model: TroubleshootingModel, start: Job): { cost: number; actions: number[]; costs: number[] } {
  let job = start;
  let spent = 0;
  const actions: number[] = [];
  const costs: number[] = [];
  let best = { cost: model.handOverCost, length: 0 };
  for (;;) {
    let chosen: { job: Job; actions: number[]; costs: number[]; ratio: number; left: number } | null = null;
    for (let repair = 0; repair < model.repairs.length; repair++) {
      const made = withForcedChecks(model, job, repair);
      if (!made) continue;
      const fixed = mass(job) - mass(made.job);
      const ratio = fixed / made.costs.reduce((sum, cost) => sum + cost, 1e-12);
      if (fixed > 1e-12 && (!chosen || ratio > chosen.ratio)) chosen = { ...made, ratio, left: mass(made.job) };
    }
    if (!chosen) break;
    spent += mass(job) * chosen.costs.reduce((sum, cost) => sum + cost, 0);
    actions.push(...chosen.actions);
    costs.push(...chosen.costs);
    job = chosen.job;
    const cost = spent + chosen.left * model.handOverCost;
    if (cost < best.cost) best = { cost, length: actions.length };
  }
  return { cost: best.cost, actions: actions.slice(0, best.length), costs: costs.slice(0, best.length) };
}

/** The job after a repair with whatever must come before it; results of checks are not looked at. null where it was tried. */
function withForcedChecks(model: TroubleshootingModel, start: Job, repair: number) {
  if (start.tried[repair]) return null;
  let job = start;
  const actions: number[] = [];
  const costs: number[] = [];
  const doCheck = (check: number): void => {
    const action = model.checks[check];
    if (!action || job.everDone[check]) return;
    for (const before of action.after) doCheck(before);
    costs.push(costNow(model, job, action));
    actions.push(check);
    job = { ...(afterCheck(model, job, check)[0] as Job), belief: job.belief };
  };
  const action = model.repairs[repair];
  if (!action) return null;
  for (const check of action.after) doCheck(check);
  costs.push(costNow(model, job, action));
  actions.push(model.checks.length + repair);
  return { job: afterFailedRepair(model, job, repair), actions, costs };
}
