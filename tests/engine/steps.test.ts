/** The spine of a policy in the words of the knowledge: minutes, money, and what is first paid where. */
import { describe, expect, test } from 'vitest';
import { formulate } from '../../src/engine/formulate.ts';
import type { PolicyNode } from '../../src/engine/plan/index.ts';
import { stepsOf } from '../../src/engine/steps.ts';
import { cause, check, family, knowledge } from './tiny-knowledge.ts';

const setUp = { title: 'Set-up', waitingMinutes: 0, money: 0, tools: [], setUps: [] };
const facts = knowledge({
  families: [family('f', { coil: 0.5, plug: 0.4 }, { handOverMoney: 200, handOverAttendedMinutes: 45 })],
  causes: {
    coil: cause({
      title: 'Dead coil',
      repair: { title: 'Fit a coil', setUps: ['cover-off'], attendedMinutes: 20, verifyMinutes: 15, money: 50 },
    }),
    plug: cause({
      repair: { title: 'Fit plugs', setUps: ['cover-off'], tools: ['gauge'], attendedMinutes: 40, verifyMinutes: 10, money: 30 },
    }),
  },
  checks: [
    check('look', { coil: 0.9 }, 0.1, {
      title: 'Look at the coil',
      setUps: ['cover-off'],
      tools: ['meter'],
      attendedMinutes: 6,
      waitingMinutes: 5,
      money: 1,
    }),
  ],
  codes: { P0001: { family: 'f' } },
  rest: {
    tools: {
      meter: { id: 'meter', title: 'Meter', owned: false, money: 25 },
      gauge: { id: 'gauge', title: 'Gauge', owned: true, money: 9 },
    },
    setUps: {
      'cover-off': { ...setUp, id: 'cover-off', attendedMinutes: 10, waitingMinutes: 3, money: 2, setUps: ['battery-off'] },
      'battery-off': { ...setUp, id: 'battery-off', attendedMinutes: 4 },
    },
  },
});
const formulation = formulate({ codes: ['P0001'] }, facts);
const handOver: PolicyNode = { kind: 'hand-over', cost: formulation.model.handOverCost };
const mend = (id: string, next: PolicyNode): PolicyNode => ({ kind: 'repair', action: formulation.repairIds.indexOf(id), cost: 0, next });
const policy: PolicyNode = { kind: 'check', action: 0, cost: 0, next: [mend('coil', mend('plug', handOver)), handOver] };
/** Worked out in each test, where mutants of it are looked for. */
const steps = () => stepsOf(formulation, policy, facts);

describe('the spine in words', () => {
  test('names each step, and the result with which the job goes on', () => {
    expect(steps().map(({ kind, id, title, goesOnWith }) => [kind, id, title, goesOnWith])).toEqual([
      ['check', 'look', 'Look at the coil', 'good'],
      ['repair', 'coil', 'Fit a coil', null],
      ['repair', 'plug', 'Fit plugs', null],
      ['hand-over', 'hand-over', 'Hand the car to a professional', null],
    ]);
  });
  test('access and tools stand where they are first needed, and are paid there alone', () => {
    expect(steps().map(({ firstNeeds }) => [...firstNeeds].sort())).toEqual([['battery-off', 'cover-off', 'tool:meter'], [], [], []]);
  });
  test('minutes and money are those of the work and of what it first needs; a repair counts its proof', () => {
    expect(steps().map(({ attendedMinutes, waitingMinutes, money }) => [attendedMinutes, waitingMinutes, money])).toEqual([
      [6 + 10 + 4, 5 + 3, 1 + 2 + 25],
      [20 + 15, 0, 50],
      [40 + 10, 0, 30],
      [45, 0, 200],
    ]);
  });
  test('chances and costs run along: what is settled adds up, and the last sum is the cost of the whole', () => {
    expect(steps()[0]!.reach).toBe(1);
    expect(steps()[3]!.cumulativeChance).toBeCloseTo(
      steps().reduce((sum, { settles }) => sum + settles, 0),
      12,
    );
    expect(steps()[3]!.cumulativeCost).toBeGreaterThan(steps()[2]!.cumulativeCost);
  });
  test('a set-up that is made already is needed nowhere', () => {
    const made = formulate({ codes: ['P0001'], setUpsDone: ['cover-off', 'battery-off'], tools: ['meter'] }, facts);
    expect(stepsOf(made, policy, facts).map(({ firstNeeds, attendedMinutes }) => [firstNeeds, attendedMinutes])[0]).toEqual([[], 6]);
  });
  test('without a family, handing over takes an hour of one’s own', () => {
    const none = formulate({ codes: [] }, facts);
    const [last] = stepsOf(none, { kind: 'hand-over', cost: none.model.handOverCost }, facts);
    expect(last!.attendedMinutes).toBe(60);
    expect(last!.money).toBeCloseTo(none.model.handOverCost - 20, 9);
  });
});
