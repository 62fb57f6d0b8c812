/** Random cases of the shipped vocabulary through belief, formulation and plan. Seeded and bounded; what it found has a test of its own below. */
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { knowledgeOrExit } from '../../scripts/content/knowledge.ts';
import { belief } from '../../src/engine/belief/index.ts';
import type { Case } from '../../src/engine/case.ts';
import { type Formulation, formulate } from '../../src/engine/formulate.ts';
import { evaluatePolicy, plan, rerank } from '../../src/engine/plan/index.ts';
import { stepsOf } from '../../src/engine/steps.ts';
import { anyCase } from './any-case.ts';

const { knowledge } = knowledgeOrExit();
const cases = anyCase(knowledge);
const seed = 31415;
const patience = 240_000;
const seen = { beliefs: 0, formulations: 0, plans: 0, codes: new Set<string>(), mostHypotheses: 0 };

afterAll(() => {
  console.log(
    `engine fuzz: ${seen.beliefs} beliefs, ${seen.formulations} formulations, ${seen.plans} plans of 10 nodes; ${seen.codes.size} of ${Object.keys(knowledge.codes).length} codes met, ${seen.mostHypotheses} hypotheses at most`,
  );
});

/** Throws when `holds` is false. A model holds a hundred thousand numbers: \`expect\` is too slow for each. */
function must(holds: boolean, otherwise: () => string): void {
  if (!holds) throw new Error(otherwise());
}

/** All numbers within a value are finite; says where one is not. */
function everyNumberFinite(value: unknown, at = ''): void {
  if (typeof value === 'number') must(Number.isFinite(value), () => `${at} is ${value}`);
  else if (value !== null && typeof value === 'object')
    for (const [key, inner] of Object.entries(value)) if (typeof inner !== 'function') everyNumberFinite(inner, `${at}.${key}`);
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** The conditions that `TroubleshootingModel` states of itself. */
function soundModel({ model, checkIds, repairIds, setUpIds, hypotheses }: Formulation): void {
  everyNumberFinite(model);
  expect(model.prior).toHaveLength(hypotheses.length);
  expect(sum(model.prior)).toBeCloseTo(1, 9);
  expect(model.handOverCost).toBeGreaterThan(0);
  for (const value of [...model.prior, ...model.setUpCosts, model.coolDownCost, model.warmUpCost]) expect(value).toBeGreaterThanOrEqual(0);
  expect(model.checks.map(({ id }) => id)).toEqual(checkIds);
  expect(model.repairs.map(({ id }) => id)).toEqual(repairIds);
  expect(model.setUpCosts).toHaveLength(setUpIds.length);
  const within = (indices: readonly number[], length: number) => {
    for (const index of indices) must(Number.isInteger(index) && index >= 0 && index < length, () => `index ${index} of ${length}`);
    must(new Set(indices).size === indices.length, () => `an index stands twice in ${indices}`);
  };
  within(model.setUpsDone, setUpIds.length);
  within(model.checksDone, checkIds.length);
  within(model.repairsTried, repairIds.length);
  for (const check of model.checks) {
    expect(check.cost).toBeGreaterThanOrEqual(0);
    within(check.setUps, setUpIds.length);
    within(check.after, checkIds.length);
    expect(check.likelihood).toHaveLength(model.prior.length);
    for (const row of check.likelihood) {
      must(Math.abs(sum(row) - 1) < 1e-9, () => `${check.id}: a row sums to ${sum(row)}`);
      must(
        row.every((chance) => chance >= 0),
        () => `${check.id}: ${row}`,
      );
    }
  }
  for (const repair of model.repairs) {
    expect(repair.cost).toBeGreaterThanOrEqual(0);
    within(repair.setUps, setUpIds.length);
    within(repair.after, checkIds.length);
    within(repair.spoils, checkIds.length);
    expect(repair.fixes).toHaveLength(model.prior.length);
    must(
      repair.fixes.every((chance) => chance >= 0 && chance <= 1),
      () => `${repair.id}: ${repair.fixes}`,
    );
  }
}

describe('random cases of the shipped vocabulary', () => {
  test('500: what is believed sums to 1, is finite and comes out the same again', { timeout: patience }, () => {
    fc.assert(
      fc.property(cases, (situation) => {
        const found = belief(situation, knowledge);
        expect(sum(found.hypotheses.map(({ probability }) => probability))).toBeCloseTo(1, 9);
        expect(sum(found.causes.map(({ probability }) => probability))).toBeCloseTo(1, 9);
        for (const { probability } of [...found.hypotheses, ...found.causes])
          expect(probability >= 0 && probability <= 1 + 1e-9).toBe(true);
        expect(found.causes.filter(({ id }) => id === null)).toHaveLength(1);
        everyNumberFinite(found);
        // Functions within the evidence are made anew each time; what they give shows in the probabilities.
        const again = belief(structuredClone(situation), knowledge);
        expect(again.hypotheses).toEqual(found.hypotheses);
        seen.beliefs += 1;
        seen.mostHypotheses = Math.max(seen.mostHypotheses, found.hypotheses.length);
        for (const code of situation.codes ?? []) if (Object.hasOwn(knowledge.codes, code)) seen.codes.add(code);
      }),
      { seed, numRuns: 500 },
    );
  });

  test('300: the problem for the planner keeps every condition of its own description', { timeout: patience }, () => {
    fc.assert(
      fc.property(cases, (situation) => {
        const formulation = formulate(situation, knowledge);
        soundModel(formulation);
        expect(JSON.stringify(formulate(structuredClone(situation), knowledge).model)).toBe(JSON.stringify(formulation.model));
        for (const action of rerank(formulation.model)) everyNumberFinite(action);
        seen.formulations += 1;
      }),
      { seed: seed + 1, numRuns: 300 },
    );
  });

  test('60: the plan lies between its bound and handing over, costs what it says, and comes out the same again', {
    timeout: patience,
  }, () => {
    fc.assert(
      fc.property(cases, (situation) => {
        const formulation = formulate(situation, knowledge);
        const { model } = formulation;
        const found = plan(model, { nodes: 10 });
        everyNumberFinite(found);
        const { expectedCost, lowerBound, gap, policy } = found;
        const slack = 1e-9 * (1 + expectedCost);
        expect(lowerBound).toBeGreaterThanOrEqual(0);
        expect(lowerBound).toBeLessThanOrEqual(expectedCost + slack);
        expect(expectedCost).toBeLessThanOrEqual(model.handOverCost + slack);
        expect(gap).toBeGreaterThanOrEqual(0);
        expect(evaluatePolicy(model, policy)).toBeCloseTo(expectedCost, 6);
        expect(JSON.stringify(plan(structuredClone(model), { nodes: 10 }))).toBe(JSON.stringify(found));
        for (const step of stepsOf(formulation, policy, knowledge)) everyNumberFinite(step);
        seen.plans += 1;
      }),
      { seed: seed + 2, numRuns: 60 },
    );
  });
});

describe('a case in words that the vocabulary does not have', () => {
  const nothing = belief({ codes: ['P0301'] }, knowledge).hypotheses;
  test.each(['constructor', '__proto__', 'toString', 'hasOwnProperty', 'no-such-thing', ''])('"%s" moves nothing', (word) => {
    const situation: Case = {
      codes: ['P0301', word],
      engine: { recentWork: [word], ...JSON.parse(`{"ignition": ${JSON.stringify(word)}, ${JSON.stringify(word)}: "x"}`) },
      symptoms: JSON.parse(`{${JSON.stringify(word)}: "present"}`),
      conditions: JSON.parse(`{${JSON.stringify(word)}: "present"}`),
      replaced: [word],
      results: [
        { check: word, outcome: 'yes' },
        { check: Object.keys(knowledge.checks)[0]!, outcome: word },
      ],
      repaired: [word],
      notPossible: [word],
      tools: [word],
      setUpsDone: [word],
    };
    expect(belief(situation, knowledge).hypotheses).toEqual(nothing);
    soundModel(formulate(situation, knowledge));
  });
});
