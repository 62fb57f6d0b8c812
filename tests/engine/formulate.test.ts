import { describe, expect, test } from 'vitest';
import { answer } from '../../src/engine/answer.ts';
import { formulate, workCost } from '../../src/engine/formulate.ts';
import { evaluatePolicy } from '../../src/engine/plan/index.ts';
import { cause, check, family, knowledge } from './tiny-knowledge.ts';

const codes = { P0001: { family: 'f' } };
const causes = { a: cause(), b: cause() };
const base = () => knowledge({ families: [family('f', { a: 0.6, b: 0.3 })], causes, checks: [check('look', { a: 0.8 }, 0.02)], codes });

describe('time as money', () => {
  test('an attended hour costs the hourly rate, a waiting hour a tenth of it', () => {
    expect(workCost({ attendedMinutes: 30, waitingMinutes: 60, money: 5 }, { hourlyRate: 20, waitingShare: 0.1 })).toBeCloseTo(
      5 + 10 + 2,
      9,
    );
  });
  test('a night of waiting counts as two hours: one sleeps anyway', () => {
    expect(workCost({ attendedMinutes: 0, waitingMinutes: 480, money: 0 }, { hourlyRate: 20, waitingShare: 0.1 })).toBeCloseTo(4, 9);
  });
  test('the hourly rate of the case counts', () => {
    expect(formulate({ codes: ['P0001'], hourlyRate: 60 }, base()).model.checks[0]!.cost).toBeCloseTo(10, 9);
  });
});

describe('what a repair costs', () => {
  test('its part, its minutes and those of the check that it has worked', () => {
    const facts = knowledge({
      families: [family('f', { a: 1 })],
      causes: { a: cause({ repair: { attendedMinutes: 30, verifyMinutes: 10, money: 50 } }) },
      codes,
    });
    expect(formulate({ codes: ['P0001'], hourlyRate: 60 }, facts).model.repairs[0]!.cost).toBeCloseTo(50 + 40, 9);
  });
});

describe('the engine at the start', () => {
  test('is cold unless the case says that it is warm', () => {
    expect(formulate({ codes: ['P0001'] }, base()).model.startsWarm).toBe(false);
    expect(formulate({ codes: ['P0001'], engineIsWarm: true }, base()).model.startsWarm).toBe(true);
  });
});

describe('which checks are worth a thought', () => {
  test('one whose outcomes are equally likely under all that is left is not in the problem', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes: { ...causes, other: cause() },
      checks: [check('look', { a: 0.8 }, 0.02), check('blind', { other: 0.9 }, 0.05)],
      codes,
    });
    expect(formulate({ codes: ['P0001'] }, facts).checkIds).toEqual(['look']);
  });
  test('what must come before a check comes along, even if it tells nothing itself', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes,
      checks: [check('first', {}, 0.05), check('second', { a: 0.8 }, 0.02, { after: ['first'] })],
      codes,
    });
    const { model, checkIds } = formulate({ codes: ['P0001'] }, facts);
    expect(checkIds).toEqual(['first', 'second']);
    expect(model.checks[1]!.after).toEqual([0]);
  });
  test('a check that cannot be done here is left out, with all that waits for it', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes,
      checks: [check('first', { b: 0.5 }, 0.05), check('second', { a: 0.8 }, 0.02, { after: ['first'] })],
      codes,
    });
    expect(formulate({ codes: ['P0001'], notPossible: ['first'] }, facts).checkIds).toEqual([]);
  });
  test('a check for another kind of engine is left out', () => {
    const traits = { ignition: { id: 'ignition', title: 'Ignition', values: { cop: 0.7, pair: 0.3 }, ageing: {} } };
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes,
      checks: [check('look', { a: 0.8 }, 0.02, { needs: { ignition: ['pair'] } })],
      codes,
      rest: { traits },
    });
    expect(formulate({ codes: ['P0001'], engine: { ignition: 'cop' } }, facts).checkIds).toEqual([]);
    // Three cars in ten have it: not proposed either, unless the cause that it finds brings the trait along.
    expect(formulate({ codes: ['P0001'] }, facts).checkIds).toEqual([]);
    const paired = knowledge({
      families: [family('f', { a: 0.6, b: 0.1 })],
      causes: { a: cause({ needs: { ignition: ['pair'] } }), b: cause() },
      checks: [check('look', { a: 0.8 }, 0.02, { needs: { ignition: ['pair'] } })],
      codes,
      rest: { traits },
    });
    expect(formulate({ codes: ['P0001'] }, paired).checkIds).toEqual(['look']);
  });
  test('a check that would only read again what the case already says is left out', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes,
      checks: [check('look', { a: 0.8 }, 0.02, { sameAs: ['trims'] })],
      codes,
    });
    expect(formulate({ codes: ['P0001'], trims: { idleBank1Percent: 3 } }, facts).checkIds).toEqual([]);
  });
});

describe('an engine that does not run', () => {
  test('checks on a running engine fall away', () => {
    const symptoms = { 'no-start': { id: 'no-start', title: 'No start', otherwise: 0.03, engineDoesNotRun: true } };
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes,
      checks: [check('idle-test', { a: 0.8 }, 0.02, { engineState: 'running' }), check('look', { a: 0.8 }, 0.02)],
      codes,
      rest: { symptoms },
    });
    expect(formulate({ codes: ['P0001'], symptoms: { 'no-start': 'present' } }, facts).checkIds).toEqual(['look']);
    expect(formulate({ codes: ['P0001'], symptoms: { 'no-start': 'absent' } }, facts).checkIds).toEqual(['idle-test', 'look']);
  });
});

describe('what is paid once', () => {
  const setUps = {
    cover: { id: 'cover', title: 'Cover off', attendedMinutes: 6, waitingMinutes: 0, money: 0, tools: [], setUps: [] },
    plugs: { id: 'plugs', title: 'Plug access', attendedMinutes: 15, waitingMinutes: 0, money: 0, tools: ['socket'], setUps: ['cover'] },
  };
  const tools = {
    socket: { id: 'socket', title: 'Socket', owned: false, money: 12 },
    hands: { id: 'hands', title: 'Hands', owned: true, money: 0 },
  };
  const facts = knowledge({
    families: [family('f', { a: 0.6, b: 0.3 })],
    causes,
    checks: [
      check('look', { a: 0.8 }, 0.02, { setUps: ['cover'], tools: ['hands'] }),
      check('read', { b: 0.8 }, 0.02, { setUps: ['plugs'] }),
    ],
    codes,
    rest: { setUps, tools },
  });
  test('set-ups bring those that they stand on, and the tools that are not owned', () => {
    const { model, setUpIds } = formulate({ codes: ['P0001'] }, facts);
    expect(setUpIds).toEqual(['cover', 'plugs', 'tool:socket']);
    expect(model.setUpCosts.map((cost) => Number(cost.toFixed(6)))).toEqual([2, 5, 12]);
    expect(model.checks.map((action) => action.setUps)).toEqual([[0], [0, 1, 2]]);
  });
  test('an owned tool costs nothing, and a set-up already made is done', () => {
    const { setUpIds, model } = formulate({ codes: ['P0001'], tools: ['socket'], setUpsDone: ['cover'] }, facts);
    expect(setUpIds).toEqual(['cover', 'plugs']);
    expect(model.setUpsDone).toEqual([0]);
  });
});

describe('hypotheses of the problem', () => {
  test('an intermittent cause stands twice, once hidden, and one repair mends both', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes: { a: cause({ hidden: 0.25 }), b: cause() },
      checks: [check('look', { a: 0.8 }, 0.02)],
      codes,
    });
    const { model, hypotheses, repairIds } = formulate({ codes: ['P0001'] }, facts);
    expect(hypotheses.map(({ cause: id, hidden }) => `${id}${hidden ? ' hidden' : ''}`)).toEqual(['a', 'a hidden', 'b', 'null']);
    expect(model.repairs[repairIds.indexOf('a')]!.fixes).toEqual([0.95, 0.95, 0, 0]);
    expect(model.checks[0]!.likelihood[1]).toEqual([0.98, 0.02]);
    expect(model.prior.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
  });
  test('work for a professional is not proposed', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes: { a: cause({ repair: { professionalOnly: true } }), b: cause() },
      checks: [check('look', { a: 0.8 }, 0.02)],
      codes,
    });
    expect(formulate({ codes: ['P0001'] }, facts).repairIds).toEqual(['b']);
  });
});

describe('the whole answer', () => {
  test('steps end with handing over, chances never fall, and the last sum is the expected cost of the policy', () => {
    const { steps, plan, formulation, comparison } = answer({ codes: ['P0001'] }, base());
    expect(steps.at(-1)?.kind).toBe('hand-over');
    for (const [index, step] of steps.entries())
      if (index > 0) expect(step.cumulativeChance).toBeGreaterThanOrEqual(steps[index - 1]!.cumulativeChance - 1e-12);
    expect(steps.at(-1)?.cumulativeCost).toBeCloseTo(plan.expectedCost, 6);
    expect(evaluatePolicy(formulation.model, plan.policy)).toBeCloseTo(plan.expectedCost, 9);
    expect(plan.lowerBound).toBeLessThanOrEqual(plan.expectedCost + 1e-9);
    for (const other of comparison) expect(other.expectedCost).toBeGreaterThanOrEqual(plan.lowerBound - 1e-9);
  });
  test('minutes and money of a step count the set-ups and tools that it needs first, once', () => {
    const setUps = { cover: { id: 'cover', title: 'Cover off', attendedMinutes: 6, waitingMinutes: 0, money: 1, tools: [], setUps: [] } };
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes,
      checks: [check('look', { a: 0.9 }, 0.01, { setUps: ['cover'] }), check('read', { b: 0.9 }, 0.01, { setUps: ['cover'] })],
      codes,
      rest: { setUps },
    });
    const { steps } = answer({ codes: ['P0001'] }, facts);
    const checks = steps.filter((step) => step.kind === 'check');
    expect(checks.map((step) => step.attendedMinutes)).toEqual([16, 10]);
    expect(checks.map((step) => step.money)).toEqual([1, 0]);
  });
});

describe('what the case has behind it', () => {
  const facts = knowledge({
    families: [family('f', { a: 0.6, b: 0.3 })],
    causes: { a: cause({ repair: { spoils: ['look', 'elsewhere'], alsoFixes: { b: 0.3 }, holds: 0.9 } }), b: cause() },
    checks: [
      check('look', { a: 0.8 }, 0.02),
      check('read', { b: 0.8 }, 0.02, { engineState: 'running', repeats: true }),
      check('cold', { b: 0.8 }, 0.02, { engineState: 'cold' }),
    ],
    codes,
  });
  const results = [{ check: 'look', outcome: 'good' }];
  test('a check with a result is done, one whose result a repair spoiled is not, and a repair that was tried is tried', () => {
    expect(formulate({ codes: ['P0001'] }, facts).model).toMatchObject({ checksDone: [], repairsTried: [] });
    const { model, checkIds, repairIds } = formulate({ codes: ['P0001'], results, repaired: ['b'] }, facts);
    expect(model.checksDone).toEqual([checkIds.indexOf('look')]);
    expect(model.repairsTried).toEqual([repairIds.indexOf('b')]);
    const spoiled = formulate({ codes: ['P0001'], results: [{ ...results[0]!, spoiled: true }] }, facts);
    expect(spoiled.model.checksDone).toEqual([]);
  });
  test('a repair spoils the checks of the problem that it names, and mends other causes as far as it reaches them', () => {
    const { model, checkIds, repairIds } = formulate({ codes: ['P0001'] }, facts);
    const a = model.repairs[repairIds.indexOf('a')]!;
    expect(a.spoils).toEqual([checkIds.indexOf('look')]);
    expect(a.fixes).toEqual([0.9, 0.3, 0]);
  });
  test('to the planner a running engine is a warm one; only a check that repeats is done twice', () => {
    const { model, checkIds } = formulate({ codes: ['P0001'], engineIsWarm: true }, facts);
    const of = (id: string) => model.checks[checkIds.indexOf(id)]!;
    expect([of('look').engineState, of('read').engineState, of('cold').engineState]).toEqual(['any', 'warm', 'cold']);
    expect([of('look').maxPerformances, of('read').maxPerformances]).toEqual([1, 2]);
    expect(model.startsWarm).toBe(true);
  });
});

describe('what handing over costs', () => {
  const two = knowledge({
    families: [
      family('f', { a: 0.9 }, { handOverMoney: 100, handOverAttendedMinutes: 30, commonness: 0.3 }),
      family('g', { b: 0.5 }, { handOverMoney: 400, handOverAttendedMinutes: 90, commonness: 0.1 }),
    ],
    causes,
    codes: { P0001: { family: 'f' }, P0002: { family: 'g' } },
  });
  const cost = (codes: string[]) => formulate({ codes }, two).model.handOverCost;
  test('its money and one’s own minutes', () => {
    expect(cost(['P0001'])).toBeCloseTo(100 + 10, 6);
    expect(cost(['P0002'])).toBeCloseTo(400 + 30, 6);
  });
  test('with several families, weighed by how likely their causes are', () => {
    const now = formulate({ codes: ['P0001', 'P0002'] }, two);
    const chance = (id: string) => now.belief.causes.find((entry) => entry.id === id)!.probability;
    const [a, b] = [chance('a'), chance('b')];
    expect(now.model.handOverCost).toBeCloseTo((a * 110 + b * 430) / (a + b), 4);
  });
  test('with none, by how common they are as well', () => {
    const now = formulate({}, two);
    const chance = (id: string) => now.belief.causes.find((entry) => entry.id === id)!.probability;
    const [a, b] = [chance('a') * 0.3 * 0.9, chance('b') * 0.1 * 0.5];
    expect(now.model.handOverCost).toBeCloseTo((a * 110 + b * 430) / (a + b), 4);
  });
});

describe('edges of what is in the problem', () => {
  const small = (extra: Parameters<typeof check>[3], share = 0.3) =>
    knowledge({
      families: [family('f', { a: 0.6, b: share })],
      causes: { a: cause({ hidden: 0.5 }), b: cause() },
      checks: [check('look', { a: 0.8 }, 0.02, extra)],
      codes,
    });
  test('a cause of less than one in two thousand joins none of these', () => {
    expect(formulate({ codes: ['P0001'] }, small({}, 0.0004)).repairIds).toEqual(['a']);
    expect(formulate({ codes: ['P0001'] }, small({}, 0.0006)).repairIds).toEqual(['a', 'b']);
  });
  test('a check whose rows differ by less than a fiftieth tells nothing apart', () => {
    const nearly = (bad: number) =>
      knowledge({ families: [family('f', { a: 0.6, b: 0.3 })], causes, checks: [check('look', { a: bad }, 0.5)], codes });
    expect(formulate({ codes: ['P0001'] }, nearly(0.503)).checkIds).toEqual([]);
    expect(formulate({ codes: ['P0001'] }, nearly(0.52)).checkIds).toEqual(['look']);
  });
  test('a freeze frame that was given is not read again; without one it is', () => {
    const frame = small({ sameAs: ['freeze-frame'] });
    expect(formulate({ codes: ['P0001'], freezeFrame: { loadPercent: 40 } }, frame).checkIds).toEqual([]);
    expect(formulate({ codes: ['P0001'], freezeFrame: {}, trims: { idleBank1Percent: 2 } }, frame).checkIds).toEqual(['look']);
    expect(formulate({ codes: ['P0001'], trims: {} }, small({ sameAs: ['trims'] })).checkIds).toEqual(['look']);
  });
  test('where only hidden faults are left, a check that provokes them tells them apart, and no other does', () => {
    const hidden = (provokes: boolean) =>
      knowledge({
        families: [family('f', { a: 0.9 })],
        causes: { a: cause({ hidden: 0.9999 }) },
        checks: [check('look', { a: 0.8 }, 0.02, { provokes })],
        codes,
      });
    expect(formulate({ codes: ['P0001'] }, hidden(false)).checkIds).toEqual([]);
    expect(formulate({ codes: ['P0001'] }, hidden(true)).checkIds).toEqual(['look']);
  });
  test('a tool that costs nothing is at hand, and names that nobody knows ask for nothing', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes,
      checks: [check('look', { a: 0.8 }, 0.02, { tools: ['rag', 'dear', 'unheard-of'], setUps: ['unheard-of'] })],
      codes,
      rest: {
        tools: {
          rag: { id: 'rag', title: 'Rag', owned: false, money: 0 },
          dear: { id: 'dear', title: 'Dear', owned: true, money: 50 },
        },
      },
    });
    expect(formulate({ codes: ['P0001'] }, facts)).toMatchObject({ setUpIds: [], model: { setUpCosts: [], setUpsDone: [] } });
  });
  test('a repair of a set-up with its tools pays for each once, however often it is named', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes: { a: cause({ repair: { setUps: ['x', 'y', 'x'], tools: ['t', 't'] } }), b: cause() },
      checks: [check('look', { a: 0.8 }, 0.02)],
      codes,
      rest: {
        tools: { t: { id: 't', title: 'T', owned: false, money: 7 } },
        setUps: Object.fromEntries(
          ['x', 'y'].map((id) => [
            id,
            { id, title: id, attendedMinutes: 3, waitingMinutes: 0, money: 0, tools: ['t'], setUps: id === 'y' ? ['x'] : [] },
          ]),
        ),
      },
    });
    const { model, setUpIds, repairIds } = formulate({ codes: ['P0001'] }, facts);
    expect(setUpIds).toEqual(['x', 'tool:t', 'y']);
    expect(model.repairs[repairIds.indexOf('a')]!.setUps).toEqual([0, 1, 2]);
    expect(model.setUpsDone).toEqual([]);
  });
});
