import { describe, expect, test } from 'vitest';
import { belief } from '../../src/engine/belief/index.ts';
import { formulate } from '../../src/engine/formulate.ts';
import { evaluatePolicy, plan } from '../../src/engine/plan/index.ts';
import { chanceRepairWasRight } from '../../src/engine/proof/index.ts';
import type { JobWords } from '../../src/job/card-types.ts';
import { carefulPlan } from '../../src/job/planner/careful-plan.ts';
import { focused } from '../../src/job/planner/focus.ts';
import { mutualInformation } from '../../src/job/planner/information.ts';
import { narrowed } from '../../src/job/planner/narrow.ts';
import { leastCost, quickPlan } from '../../src/job/planner/quick-plan.ts';
import { planNow, rankNow } from '../../src/job/planner/rank.ts';
import { drivingVerdict } from '../../src/job/state/driving.ts';
import { spoiledAnswers } from '../../src/job/state/spoiled.ts';
import { type Action, type Answer, caseOf, emptyInputs, newJob, reduce } from '../../src/job/state.ts';
import { ownFigures } from '../../src/job/view/own-figures.ts';
import { entryText } from '../../src/job/view/words.ts';
import { cause, check, family, knowledge } from '../engine/tiny-knowledge.ts';

const facts = knowledge({
  families: [family('lean', { hose: 0.5, gasket: 0.3, pump: 0.1 })],
  causes: {
    hose: cause({ title: 'Hose', parts: ['hose-part'], repair: { holds: 0.9, alsoFixes: { gasket: 0.5 } } }),
    gasket: cause({ title: 'Gasket', recentWork: { 'intake-manifold': 10 }, repair: { money: 200 } }),
    pump: cause({ title: 'Pump', parts: ['pump-part'] }),
  },
  checks: [
    check('look', { hose: 0.8 }, 0.05, { engineState: 'cold' }),
    check('smoke', { hose: 0.95, gasket: 0.95 }, 0.02, { setUps: ['cover-off'], tools: ['smoke-machine'], engineState: 'running' }),
    check('pressure', { pump: 0.95 }, 0.03, { after: ['look'] }),
  ],
  codes: { P0171: { family: 'lean' } },
  rest: {
    parts: {
      'hose-part': { id: 'hose-part', title: 'Hose', price: { low: 5, high: 9 }, earlyFailure: 0.05, work: null },
      'pump-part': { id: 'pump-part', title: 'Pump', price: { low: 50, high: 90 }, earlyFailure: 0.05, work: null },
      'gasket-part': { id: 'gasket-part', title: 'Gasket', price: { low: 5, high: 9 }, earlyFailure: 0.05, work: 'intake-manifold' },
    },
    recentWork: { 'intake-manifold': { id: 'intake-manifold', title: 'Intake manifold' } },
    tools: { 'smoke-machine': { id: 'smoke-machine', title: 'Smoke machine', owned: false, money: 30 } },
    setUps: {
      'cover-off': { id: 'cover-off', title: 'Cover off', attendedMinutes: 5, waitingMinutes: 0, money: 0, tools: [], setUps: ['bonnet'] },
      bonnet: { id: 'bonnet', title: 'Bonnet open', attendedMinutes: 1, waitingMinutes: 0, money: 0, tools: [], setUps: [] },
    },
  },
});

const start = reduce(newJob('job', 0), { type: 'codes', text: 'P0171, P1234' });
const after = (...actions: readonly Action[]) => actions.reduce(reduce, start);
const answer = (given: Answer): Action => ({ type: 'answer', at: 1, answer: given });
const result = (id: string, outcome: string, before = false) => answer({ kind: 'result', check: id, outcome, reading: null, before });
const chance = (job: typeof start, id: string | null) =>
  belief(caseOf(job, facts), facts).causes.find((entry) => entry.id === id)!.probability;

describe('what the engine is told of a job', () => {
  test('codes without a tree stay in the job and are not told', () => {
    expect(start.inputs.codes).toEqual(['P0171', 'P1234']);
    expect(caseOf(start, facts).codes).toEqual(['P0171']);
  });

  test('a part replaced since the code lowers its cause; long before it says nothing; just before it counts as the work that it is', () => {
    const replaced = (part: string, when: 'since-the-code' | 'just-before' | 'long-before') => after({ type: 'replaced', part, when });
    expect(chance(replaced('hose-part', 'since-the-code'), 'hose')).toBeLessThan(0.1);
    expect(chance(replaced('hose-part', 'long-before'), 'hose')).toBe(chance(start, 'hose'));
    expect(chance(replaced('gasket-part', 'just-before'), 'gasket')).toBeGreaterThan(2 * chance(start, 'gasket'));
  });

  test('a repair that did not help leaves its cause possible, at what a failed repair leaves', () => {
    const failed = after(answer({ kind: 'repair', cause: 'hose', outcome: 'still-there' }));
    // 0.5 x 0.1, 0.3 x 0.5 (the repair removes half of those too), 0.1, and 0.1 for none of these.
    expect(chance(failed, 'hose')).toBeCloseTo(0.05 / (0.05 + 0.15 + 0.1 + 0.1), 10);
  });

  test('a code that returns after a repair is the same evidence as a repair that did not help', () => {
    const gone = answer({ kind: 'repair', cause: 'hose', outcome: 'gone' });
    const returned = after(result('look', 'bad'), gone, answer({ kind: 'returned', cause: 'hose' }));
    const failed = after(result('look', 'bad'), answer({ kind: 'repair', cause: 'hose', outcome: 'still-there' }));
    expect(chance(returned, 'hose')).toBeCloseTo(chance(failed, 'hose'), 12);
    expect(chance(returned, 'hose')).toBeLessThan(chance(after(result('look', 'bad')), 'hose'));
  });

  test('access made and tools had for a step are there for the next; what was done before the job opened nothing', () => {
    expect(caseOf(after(result('smoke', 'good')), facts)).toMatchObject({ setUpsDone: ['bonnet', 'cover-off'], tools: ['smoke-machine'] });
    expect(caseOf(after(result('smoke', 'good', true)), facts)).toMatchObject({ setUpsDone: [], tools: [], engineIsWarm: false });
  });

  test('the engine is as the last step left it, unless one says otherwise', () => {
    expect(caseOf(after(result('smoke', 'good')), facts).engineIsWarm).toBe(true);
    expect(caseOf(after(result('smoke', 'good'), result('look', 'good')), facts).engineIsWarm).toBe(false);
    expect(caseOf(after(result('smoke', 'good'), { type: 'engine-warm', warm: false }), facts).engineIsWarm).toBe(false);
  });

  test('what cannot be done and what was put aside is not proposed; taken up again it is', () => {
    const aside = after(answer({ kind: 'aside', action: 'look' }));
    expect(rankNow(caseOf(aside, facts), facts).proposals.map(({ id }) => id)).not.toContain('look');
    expect(caseOf(reduce(aside, { type: 'remove', id: 1 }), facts)).toEqual(caseOf(start, facts));
  });

  test('ids that the content no longer has do no harm and are not lost', () => {
    const old = after(result('gone-check', 'good'), answer({ kind: 'cannot', action: 'gone-check' }), {
      type: 'symptom',
      id: 'gone',
      presence: 'present',
    });
    expect(chance(old, 'hose')).toBe(chance(start, 'hose'));
    expect(old.timeline.length).toBe(2);
  });

  test('an id that every object of the language answers to is one that the content does not have', () => {
    const id = 'constructor';
    const strange = after(
      { type: 'trait', trait: id, value: id },
      { type: 'recent-work', id, on: true },
      { type: 'symptom', id, presence: 'present' },
      { type: 'condition', id, presence: 'absent' },
      { type: 'replaced', part: id, when: 'just-before' },
      { type: 'tool', id, on: true },
      result(id, id),
      answer({ kind: 'cannot', action: id }),
      answer({ kind: 'repair', cause: id, outcome: 'still-there' }),
      answer({ kind: 'returned', cause: id }),
      answer({ kind: 'found', cause: id }),
    );
    expect(chance(strange, 'hose')).toBe(chance(start, 'hose'));
    expect(rankNow(caseOf(strange, facts), facts).proposals).toEqual(rankNow(caseOf(start, facts), facts).proposals);
    expect(strange.timeline.map((entry) => entryText(entry, facts).title)).toEqual([
      'constructor (no longer in the content)',
      'constructor (no longer in the content)',
      'constructor',
      'constructor',
      'constructor',
    ]);
  });

  test('an answer that a later repair spoiled stays and counts, and its check may be done again', () => {
    const worn = {
      ...facts,
      causes: { ...facts.causes, hose: { ...facts.causes['hose']!, repair: { ...facts.causes['hose']!.repair, spoils: ['look'] } } },
    };
    const proposed = (job: typeof start) => rankNow(caseOf(job, worn), worn).proposals.map(({ id }) => id);
    const looked = after(result('look', 'good'));
    expect(proposed(looked)).not.toContain('look');
    const failed = reduce(looked, answer({ kind: 'repair', cause: 'hose', outcome: 'still-there' }));
    expect([...spoiledAnswers(failed.timeline, worn)]).toEqual([[1, 2]]);
    expect(proposed(failed)).toContain('look');
    const unspoiled = belief(caseOf(failed, facts), facts).causes;
    expect(belief(caseOf(failed, worn), worn).causes).toEqual(unspoiled);
    const again = reduce(failed, result('look', 'bad'));
    expect([...spoiledAnswers(again.timeline, worn).keys()]).toEqual([1]);
    expect(proposed(again)).not.toContain('look');
  });
});

describe('what a repair costs when its cause was found another way', () => {
  test('is what the planner says of it, access and tools included, before the work and after', () => {
    const dear = {
      ...facts,
      causes: {
        ...facts.causes,
        hose: {
          ...facts.causes['hose']!,
          repair: { ...facts.causes['hose']!.repair, tryAsTest: true, setUps: ['cover-off'], tools: ['smoke-machine'] },
        },
      },
    };
    for (const job of [start, after(result('smoke', 'good'))]) {
      const situation = caseOf(job, dear);
      const ranked = rankNow(situation, dear).proposals.find(({ kind, id }) => kind === 'repair' && id === 'hose')!;
      const own = ownFigures('hose', situation, dear)!;
      const figures = ({ attendedMinutes, waitingMinutes, money, setUps, tools }: typeof own) => ({
        attendedMinutes,
        waitingMinutes,
        money,
        setUps: [...setUps].sort(),
        tools,
      });
      expect(figures(own)).toEqual(figures(ranked));
    }
    expect(ownFigures('unheard-of', caseOf(start, dear), dear)).toBeNull();
  });
});

describe('the belief that a repair was right', () => {
  test('is its cause by how well the repair holds, and what else it removes', () => {
    const now = belief(caseOf(start, facts), facts);
    expect(chanceRepairWasRight(now, 'hose', facts)).toBeCloseTo(0.5 * 0.9 + 0.3 * 0.5, 10);
    expect(chanceRepairWasRight(now, 'unheard-of', facts)).toBe(0);
  });
});

describe('a narrowed plan', () => {
  test('keeps precedence, sums to one, and its policy costs what it says on the narrowed problem', () => {
    const whole = formulate(caseOf(start, facts), facts);
    const narrow = focused(whole, { checks: 1, leastProbability: 0.2 });
    expect(narrow.model.prior.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
    expect(narrow.model.checks.length).toBeLessThan(whole.model.checks.length);
    for (const action of narrow.model.checks) for (const before of action.after) expect(narrow.model.checks[before]).toBeDefined();
    const found = quickPlan(narrow.model, 50);
    expect(evaluatePolicy(narrow.model, found.node)).toBeCloseTo(found.cost, 9);
  });

  test('a problem that is small enough is left whole', () => {
    const whole = formulate(caseOf(start, facts), facts);
    expect(focused(whole, { checks: 10, leastProbability: 0.001 })).toBe(whole);
  });

  test('a quick plan is never under what is proven to be the least, nor under the optimum', () => {
    for (const rate of [1, 10, 60]) {
      const { model } = formulate(caseOf(after({ type: 'hourly-rate', rate }), facts), facts);
      const optimum = plan(model, { nodes: 20_000 });
      expect(optimum.gap).toBe(0);
      const quick = quickPlan(model, 200).cost;
      expect(quick).toBeGreaterThanOrEqual(optimum.expectedCost - 1e-9);
      const careful = carefulPlan(model).cost;
      expect(careful).toBeGreaterThanOrEqual(optimum.expectedCost - 1e-9);
      expect(careful).toBeLessThanOrEqual(1.05 * optimum.expectedCost);
      expect(leastCost(model)).toBeLessThanOrEqual(optimum.expectedCost + 1e-9);
      expect(leastCost(model)).toBeGreaterThan(0);
    }
  });

  test('with few checks nothing is left out; with many, what was done and what must come before stays', () => {
    const situation = caseOf(after(result('smoke', 'good')), facts);
    const now = belief(situation, facts);
    expect(narrowed(situation, facts, now, 3)).toBe(facts);
    const one = narrowed(situation, facts, now, 1);
    expect(Object.keys(one.checks)).toContain('smoke');
    for (const { after: before } of Object.values(one.checks)) for (const id of before) expect(one.checks[id]).toBeDefined();
  });

  test('what follows each result of the first step is foreseen', () => {
    // Time that costs next to nothing makes looking first worth it.
    const { outlook } = planNow(formulate(caseOf(after({ type: 'hourly-rate', rate: 1 }), facts), facts), facts);
    expect(outlook.first.kind).toBe('check');
    expect(Object.keys(outlook.after)).toEqual(['good', 'bad']);
  });
});

describe('may I drive', () => {
  const words = {
    symptoms: [
      { id: 'lamp-flashing', title: 'Flashes', asks: '', also: [], group: 'lamp', driving: 'stop', drivingWhy: 'The catalyst overheats.' },
      { id: 'weak', title: 'Weak', asks: '', also: [], group: 'pulling', driving: 'gently', drivingWhy: 'Slow.' },
    ],
    codes: { P0171: 'lean' },
    codeGroups: { lean: { meaning: '', lamp: '', driving: 'as-usual', drivingWhy: 'Harmless.' } },
  } as unknown as JobWords;

  test('the strictest of what is known decides; with nothing known nothing is said', () => {
    expect(drivingVerdict(emptyInputs, words).level).toBeNull();
    expect(drivingVerdict({ ...emptyInputs, codes: ['P0171'] }, words).level).toBe('as-usual');
    const both = { ...emptyInputs, codes: ['P0171'], symptoms: { weak: 'present', 'lamp-flashing': 'present' } as const };
    expect(drivingVerdict(both, words)).toMatchObject({
      level: 'stop',
      reasons: [{ because: 'Flashes' }, { because: 'Weak' }, { because: 'P0171' }],
    });
  });

  test('a symptom that is absent allows nothing and forbids nothing', () => {
    expect(drivingVerdict({ ...emptyInputs, symptoms: { 'lamp-flashing': 'absent' } }, words).level).toBeNull();
  });
});

describe('what a check tells', () => {
  test('nothing when every cause gives the same result, all of ln 2 when it splits two even causes', () => {
    expect(
      mutualInformation(
        [
          [0.9, 0.1],
          [0.9, 0.1],
        ],
        [0.5, 0.5],
      ),
    ).toBeCloseTo(0, 12);
    expect(
      mutualInformation(
        [
          [1, 0],
          [0, 1],
        ],
        [0.5, 0.5],
      ),
    ).toBeCloseTo(Math.LN2, 12);
  });

  // Cover & Thomas, Elements of Information Theory, section 7.1.4: binary symmetric channel, even input: ln 2 minus the entropy of p.
  test('a symmetric error of p leaves ln 2 - H(p)', () => {
    const p = 0.11;
    const entropy = -p * Math.log(p) - (1 - p) * Math.log(1 - p);
    expect(
      mutualInformation(
        [
          [1 - p, p],
          [p, 1 - p],
        ],
        [0.5, 0.5],
      ),
    ).toBeCloseTo(Math.LN2 - entropy, 12);
  });
});
