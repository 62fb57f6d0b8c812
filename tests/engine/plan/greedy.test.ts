import { describe, expect, it } from 'vitest';
import { randomModel } from '../../../scripts/bench/random-models.ts';
import { GreedyPlanner } from '../../../src/engine/plan/greedy.ts';
import { evaluatePolicy, type PolicyNode, rerank, type TroubleshootingModel } from '../../../src/engine/plan/index.ts';
import { compileInstance, startStatus } from '../../../src/engine/plan/instance.ts';
import { afterCheck, afterFailedRepair, at, checkIsOpen, costNow, type Job, mass, startJob } from '../../../src/engine/plan/job.ts';
import { RepairSequencer } from '../../../src/engine/plan/repair-sequence.ts';
import { bareCheck, bareModel, bareRepair, soleRepair } from './bare-model.ts';
import { scaledBelief, statusOf } from './places.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

/** Two causes of equal chance, each with a repair of 50: 75 by repairs alone. */
const TWO = { ...bareModel, prior: [0.5, 0.5], repairs: [soleRepair(0, 2, 50), soleRepair(1, 2, 50)] };
const perfect = (cost: number) => bareCheck('perfect', cost, [[1, 0], [0, 1]]); // biome-ignore format: a matrix

describe('the greedy policy', () => {
  it('does the check whose repair sequences, with its own cost, are cheapest', () => {
    // Good nine times in ten for 3: 3 + 50 + 0.1 x 50 = 58. Perfect for 10: 60. Perfect for 4: 54.
    const good = bareCheck('good', 3, [[0.9, 0.1], [0.1, 0.9]]); // biome-ignore format: a matrix
    const { node, cost } = greedy({ ...TWO, checks: [good, perfect(10), perfect(4)] });
    expect(cost).toBeCloseTo(54, 12);
    const repair = (action: number): PolicyNode => ({ kind: 'repair', action, cost: 50, next: null });
    expect(node).toEqual({ kind: 'check', action: 2, cost: 4, next: [repair(0), repair(1)] });
  });

  it('makes the next repair where no check pays in one step', () => {
    const { node, cost } = greedy({ ...TWO, checks: [perfect(25)] });
    expect(cost).toBeCloseTo(75, 12);
    expect(node).toMatchObject({ kind: 'repair', action: 0, next: { kind: 'repair', action: 1, next: null } });
  });

  it('hands over where neither check nor repair pays, at the cost of handing over', () => {
    expect(greedy({ ...TWO, checks: [perfect(25)], handOverCost: 40 })).toEqual({ node: { kind: 'hand-over', cost: 40 }, cost: 40 });
  });

  it('leaves branches that are reached with too small a chance to the repair sequence', () => {
    // The first look splits 0.5 from 0.5; the second, on either side, would save 25 for 1.
    const rows = [[1, 0], [1, 0], [0, 1], [0, 1]]; // biome-ignore format: a matrix
    const odd = [[1, 0], [0, 1], [1, 0], [0, 1]]; // biome-ignore format: a matrix
    const model = {
      ...bareModel,
      prior: [0.25, 0.25, 0.25, 0.25],
      checks: [bareCheck('half', 1, rows), bareCheck('odd', 1, odd)],
      repairs: [0, 1, 2, 3].map((h) => soleRepair(h, 4, 50)),
    };
    expect(greedy(model, 0.5).cost).toBeCloseTo(1 + 1 + 50, 12);
    expect(greedy(model, 0.51).cost).toBeCloseTo(1 + 50 + 25, 12);
    // So is everything past the limit of nodes: the root, its first branch and what is below that are counted.
    expect(greedy(model, 0, 2).cost).toBeCloseTo(1 + 50 + 0.5 * (1 + 25), 9);
  });

  it('is what a plain reckoning of the same rule finds', () => {
    for (let start = 1; start <= 120; start++) compareWithPlain(smallModel(seeded(start), start % 3), `model ${start}`);
  });

  it('looks at sixteen of many checks in full: eleven that tell most per cost, then the five that tell most', () => {
    for (let start = 1; start <= 4; start++) compareWithPlain(randomModel(6, 24, seeded(start)), `model ${start}`);
    // In these the check that would save most is not among the sixteen.
    for (const start of [31, 41]) compareWithPlain(randomModel(6, 40, seeded(start)), `model ${start} of 40 checks`, 0.3);
    compareWithPlain(randomModel(10, 30, seeded(15)), 'model 15 of 30 checks', 0.3);
  });

  it('costs what it says, and no more than the repair sequence', () => {
    for (let start = 1; start <= 100; start++) {
      const model = smallModel(seeded(start), 2);
      const instance = compileInstance(model);
      const { node, cost } = greedy(model);
      expect(evaluatePolicy(model, node)).toBeCloseTo(cost, 8);
      const sequence = new RepairSequencer(instance).cost(Float64Array.from(model.prior), startStatus(instance), 1);
      expect(cost).toBeLessThanOrEqual(sequence + 1e-9);
    }
  });
});

describe('the immediate ranking, worked by hand', () => {
  it('lists every open action with what the job costs if it comes next', () => {
    const late = { ...perfect(1), id: 'late', after: [0] };
    const spent = { ...TWO, checks: [perfect(4), perfect(10), late], handOverCost: 200 };
    const estimates = rerank({ ...spent, checksDone: [1] }).map(({ kind, action, cost, estimate }) => [kind, action, cost, estimate]);
    // The check: 4 + 50. Either repair: 50 + 0.5 x 50; of these the lower index first. `late` waits; the second check is used up.
    expect(estimates).toEqual([
      ['check', 0, 4, 54],
      ['repair', 0, 50, 75],
      ['repair', 1, 50, 75],
      ['hand-over', null, 200, 200],
    ]);
  });

  it('leaves out repairs tried already and those that can fix nothing that is left', () => {
    const repairs = [soleRepair(0, 3, 50), soleRepair(1, 3, 60), soleRepair(2, 3, 5)];
    const ranked = rerank({ ...bareModel, prior: [0.5, 0.5, 0], repairs, repairsTried: [0], handOverCost: 90 });
    expect(ranked).toEqual([
      { kind: 'hand-over', action: null, cost: 90, estimate: 90, deviation: 0 },
      { kind: 'repair', action: 1, cost: 60, estimate: 60 + 0.5 * 90, deviation: 15 },
    ]);
  });

  it('counts what a repair makes cheaper for the next, and asks nothing more once a repair surely ends the job', () => {
    const repairs = [bareRepair('both', 80, [1, 1]), { ...soleRepair(0, 2, 20), setUps: [0] }, { ...soleRepair(1, 2, 30), setUps: [0] }];
    const ranked = rerank({ ...bareModel, prior: [0.5, 0.5], repairs, setUpCosts: [10] });
    expect(ranked.slice(0, 3).map(({ action, cost, estimate }) => [action, cost, estimate])).toEqual([
      // 20 + 10, then 0.5 x 30; the other way round 30 + 10, then 0.5 x 20.
      [1, 30, 45],
      [2, 40, 50],
      [0, 80, 80],
    ]);
  });
});

function greedy(model: TroubleshootingModel, least = 0, limit = Number.POSITIVE_INFINITY) {
  const instance = compileInstance(model);
  return new GreedyPlanner(instance, least, limit).build(Float64Array.from(model.prior), startStatus(instance), 1);
}

function compareWithPlain(model: TroubleshootingModel, name: string, least = 0.04): void {
  const plain = new PlainGreedy(model, least);
  const instance = compileInstance(model);
  const planner = new GreedyPlanner(instance, least, Number.POSITIVE_INFINITY);
  const made = planner.build(Float64Array.from(model.prior), startStatus(instance), 1);
  const expected = plain.build(startJob(model), 1);
  expect(made.cost, name).toBeCloseTo(expected.cost, 8);
  expect(actionsOf(made.node), name).toBe(expected.actions);
  expect(planner.nodes, name).toBe(plain.states);
}

function actionsOf(node: PolicyNode | null): string {
  if (!node) return '-';
  if (node.kind === 'hand-over') return 'h';
  if (node.kind === 'repair') return `r${node.action}(${actionsOf(node.next)})`;
  return `c${node.action}(${node.next.map(actionsOf).join(' ')})`;
}

/** The rule as it reads, on plain jobs. Repair sequences are taken from the sequencer, which has a test of its own. */
class PlainGreedy {
  states = 0;
  private readonly model: TroubleshootingModel;
  private readonly least: number;
  private readonly sequencer: RepairSequencer;

  constructor(model: TroubleshootingModel, least: number) {
    this.model = model;
    this.least = least;
    this.sequencer = new RepairSequencer(compileInstance(model));
  }

  build(job: Job, reach: number): { cost: number; actions: string } {
    const { model } = this;
    this.states++;
    const base = this.sequence(job);
    const first = this.sequencer.length > 0 ? (this.sequencer.actions[0] as number) : null;
    const list = [...this.sequencer.actions.slice(0, this.sequencer.length)];
    const sequence = () => ({ cost: base, actions: this.listed(list, job) });
    if (reach < this.least) return sequence();
    let best = base * (1 - 1e-12);
    let action = first;
    for (const check of this.worthALook(job)) {
      const cost =
        costNow(model, job, at(model.checks, check)) + expected(afterCheck(model, job, check), job, (next) => this.sequence(next));
      if (cost < best) {
        best = cost;
        action = check;
      }
    }
    if (action === null) return { cost: model.handOverCost, actions: 'h' };
    const isCheck = action < model.checks.length;
    const repair = action - model.checks.length;
    const nexts = isCheck ? afterCheck(model, job, action) : [afterFailedRepair(model, job, repair)];
    const made = nexts.map((next) => (mass(next) > 0 ? this.build(next, (reach * mass(next)) / mass(job)) : null));
    const own = costNow(model, job, isCheck ? at(model.checks, action) : at(model.repairs, repair));
    const cost = nexts.reduce((sum, next, o) => sum + (mass(next) / mass(job)) * (made[o]?.cost ?? 0), own);
    const name = isCheck ? `c${action}` : `r${repair}`;
    return cost <= base ? { cost, actions: `${name}(${made.map((after) => after?.actions ?? '-').join(' ')})` } : sequence();
  }

  private sequence(job: Job): number {
    return this.sequencer.cost(scaledBelief(job), statusOf(compileInstance(this.model), job), 1);
  }

  private worthALook(job: Job): number[] {
    const { model } = this;
    const open = model.checks.map((_, check) => check).filter((check) => checkIsOpen(model, job, check));
    if (open.length <= 16) return open;
    const squares = ({ belief }: Job): number => belief.reduce((sum, weight) => sum + weight ** 2, 0);
    const sureness = (next: Job): number => squares(next) / mass(next) ** 2;
    const gain = (check: number): number => expected(afterCheck(model, job, check), job, sureness) - sureness(job);
    const perCost = (check: number): number => gain(check) / (costNow(model, job, at(model.checks, check)) + 1e-3 * model.handOverCost);
    const byPerCost = [...open].sort((a, b) => perCost(b) - perCost(a));
    const rest = byPerCost.slice(11).sort((a, b) => gain(b) - gain(a));
    return [...byPerCost.slice(0, 11), ...rest.slice(0, 5)];
  }

  /** A list of actions as a policy: what cannot happen is left out. */
  private listed(list: readonly number[], job: Job): string {
    const { model } = this;
    const [action, ...rest] = list;
    if (action === undefined) return 'h';
    const isCheck = action < model.checks.length;
    const nexts = isCheck ? afterCheck(model, job, action) : [afterFailedRepair(model, job, action - model.checks.length)];
    const branches = nexts.map((next) => (mass(next) > 0 ? this.listed(rest, next) : '-'));
    return `${isCheck ? `c${action}` : `r${action - model.checks.length}`}(${branches.join(' ')})`;
  }
}

function expected(nexts: readonly Job[], job: Job, value: (next: Job) => number): number {
  return nexts.reduce((sum, next) => (mass(next) > 0 ? sum + (mass(next) / mass(job)) * value(next) : sum), 0);
}
