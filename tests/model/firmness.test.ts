import { describe, expect, it } from 'vitest';
import { strengths } from '../../src/compile/order.ts';
import { defaultCase } from '../../src/engine/default-case.ts';
import { type Formulation, formulate } from '../../src/engine/formulate.ts';
import type { Knowledge } from '../../src/engine/knowledge.ts';
import { rerank } from '../../src/engine/plan/index.ts';
import { checkContent } from '../../src/model/check-content.ts';
import { costAbove, firstStepFirmness } from '../../src/model/firmness/first-step.ts';
import { levers } from '../../src/model/firmness/levers.ts';
import type { ContentFile, Problem } from '../../src/model/problem.ts';
import { cause, check, family, knowledge } from '../engine/tiny-knowledge.ts';
import { badExample, overlay } from './bad-content.ts';

/**
 * Looking at the less likely side comes first: the repair that follows a good result is that of the other side.
 * A dear part on either side, and a look that finds each; "none of these" keeps a tenth.
 */
function twoSides({ leftShare = 0.4, leftFound = 0.9, rightFound = 0.9 }): Formulation & { facts: Knowledge['checks'] } {
  const dear = { repair: { money: 200 } };
  const tiny = knowledge({
    families: [family('doubt', { left: leftShare, right: 0.9 - leftShare }, { handOverMoney: 600 })],
    causes: { left: cause(dear), right: cause(dear) },
    checks: [check('look-left', { left: leftFound }, 0.05), check('look-right', { right: rightFound }, 0.05)],
    codes: { P0001: { family: 'doubt' } },
  });
  return { ...formulate(defaultCase(['P0001'], tiny), tiny), facts: tiny.checks };
}
const look = { left: { kind: 'check', action: 0 }, right: { kind: 'check', action: 1 } } as const;
const often = { ...strengths, samples: 400, start: 1 };

describe('how firmly an order begins with its first step', () => {
  it('is nearly always so where the other check hardly finds anything', () => {
    const { samples, stated, firsts } = firstStepFirmness(twoSides({ rightFound: 0.2 }).model, often);
    expect(stated).toEqual(look.left);
    expect(firsts[0]).toMatchObject(look.left);
    expect(firsts[0]!.times / samples).toBeGreaterThan(0.97);
  });

  it('is a toss-up where both sides are alike, within three standard errors', () => {
    const { firsts } = firstStepFirmness(twoSides({ leftShare: 0.45 }).model, often);
    expect(firsts.map(({ times }) => times).reduce((a, b) => a + b)).toBe(400);
    expect(Math.abs(firsts.find(({ action }) => action === 0)!.times - 200)).toBeLessThan(3 * 10);
  });

  it('costs less to be wrong about, the surer the numbers are', () => {
    const loss = (cars: number) =>
      firstStepFirmness(twoSides({}).model, { priorStrength: cars, likelihoodStrength: cars, samples: 200, start: 1 }).meanLoss;
    expect(loss(10)).toBeGreaterThan(loss(100));
    expect(loss(100)).toBeGreaterThan(loss(10_000));
    expect(loss(10_000)).toBeGreaterThanOrEqual(0);
  });

  it('is the same at every run', () => {
    const { model } = twoSides({});
    expect(firstStepFirmness(model, often)).toEqual(firstStepFirmness(model, often));
  });

  it('ranks as the quick rank of the whole model does', () => {
    const { model } = twoSides({});
    const ranked = rerank(model);
    const estimate = (action: number) => ranked.find((step) => step.kind === 'check' && step.action === action)!.estimate;
    expect(costAbove(model, look.right, look.left)).toBeCloseTo(estimate(1) - estimate(0), 9);
  });
});

describe('the numbers that decide what comes first', () => {
  const decisive = () => {
    const { model, hypotheses, facts } = twoSides({});
    return levers(model, hypotheses, facts, [look.left, look.right], strengths, 20);
  };

  it('turn the order where a family with that share, or a check with that chance, begins otherwise', () => {
    const share = decisive().find(({ chance }) => chance.kind === 'cause' && chance.cause === 'left')!;
    // Moving one cause leaves the others in proportion: 0.5 for the right one and 0.1 for none, as 5 to 1.
    const begins = (left: number) => {
      const rest = (1 - left) / 6;
      const { model } = twoSides({});
      return rerank({ ...model, prior: [left, 5 * rest, rest] })[0]!.action;
    };
    expect(share.now).toBeCloseTo(0.4, 6);
    expect(share.turnsAt).toBeGreaterThan(share.now);
    expect(begins(share.turnsAt! - 0.002)).toBe(0);
    expect(begins(share.turnsAt! + 0.002)).toBe(1);

    const found = decisive().find(({ chance }) => chance.kind === 'outcome' && chance.cause === 'right' && chance.outcome === 'bad')!;
    const beginsWhenFound = (rightFound: number) => rerank(twoSides({ rightFound }).model)[0]!.action;
    if (found.turnsAt !== null) {
      expect(beginsWhenFound(found.turnsAt + 0.002)).not.toBe(beginsWhenFound(found.turnsAt - 0.002));
    } else expect(beginsWhenFound(0.995)).toBe(0);
  });

  it('come with the weightiest first, and name each number once', () => {
    const found = decisive();
    const weights = found.map(({ weight }) => weight);
    expect(weights).toEqual([...weights].sort((a, b) => b - a));
    expect(new Set(found.map(({ chance }) => JSON.stringify(chance))).size).toBe(found.length);
  });
});

describe('the warning that an order flips easily', () => {
  const flips = (files: readonly ContentFile[]): readonly Problem[] => checkContent(files, [], strengths);
  const { files } = badExample('order-flips-easily');
  const familyPath = 'content/families/rough-idle.yaml';
  const accepting = (steps: readonly string[]): readonly ContentFile[] => {
    const { text } = files.find(({ path }) => path === familyPath)!;
    const field = `eitherFirst: {steps: [${steps.join(', ')}], why: Each is a look of five minutes.}\n`;
    return overlay(files, [{ path: familyPath, text: text.replace('formed:', `${field}formed:`) }]);
  };

  it('names the place of each number to firm up', () => {
    const [problem] = flips(files);
    const places = [...problem!.mend.matchAll(/(content\/[a-z/-]+\.yaml):(\d+):(\d+) \(chance of/g)];
    expect(places.length).toBeGreaterThan(0);
    for (const [, path, line, column] of places) {
      const text = files.find((file) => file.path === path)!.text.split('\n')[Number(line) - 1]!;
      expect(text.slice(Number(column) - 1)).toMatch(/^(0?\.\d+|[a-z])/);
    }
  });

  it('is silent once the family says that either step is as good', () => {
    expect(flips(accepting(['feel-the-hoses', 'listen-to-the-hoses']))).toEqual([]);
  });

  it('comes back when the steps that were said to be as good are not those that it flips between', () => {
    expect(flips(accepting(['read-plug-gap', 'look-at-hoses'])).map(({ code }) => code)).toEqual(['order-flips-easily']);
  });

  it('is not looked for where something is wrong: a broken world has no order', () => {
    const broken = overlay(files, [{ path: 'content/tools/pliers.yaml', text: 'title: [\n' }]);
    expect(flips(broken).some(({ code }) => code === 'order-flips-easily')).toBe(false);
  });
});
