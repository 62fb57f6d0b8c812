import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { knowledgeOrExit } from '../scripts/content/knowledge.ts';
import { strategyTitles } from '../src/compile/plan-report.ts';
import { answer, defaultBudget } from '../src/engine/answer.ts';
import { belief } from '../src/engine/belief/index.ts';
import type { Case } from '../src/engine/case.ts';
import { playThrough } from '../src/engine/playthrough.ts';
import { readCase } from '../src/model/case-file.ts';

/**
 * Made-up but realistic jobs: what a person would tell, and what each check would show, with the true cause known. The
 * computed order must get to it, by its repair or, where that is work for a professional, by handing over with it on top.
 */
const situationSchema = z.strictObject({
  title: z.string(),
  story: z.string(),
  truth: z.string(),
  case: z.record(z.string(), z.unknown()),
  answers: z.record(z.string(), z.string()),
});

const { knowledge } = knowledgeOrExit();
const folder = 'tests/situations';
const files = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .sort();
const table: string[][] = [];

describe('situations with a known truth', () => {
  test('there are at least forty, and every family has one', () => {
    const families = files.flatMap((name) => {
      const { case: told } = situationSchema.parse(JSON.parse(readFileSync(`${folder}/${name}`, 'utf8')));
      return ((told['codes'] as string[] | undefined) ?? []).flatMap((code) => knowledge.codes[code]?.family ?? []);
    });
    expect(files.length).toBeGreaterThanOrEqual(40);
    expect(Object.keys(knowledge.families).filter((family) => !families.includes(family))).toEqual([]);
  });

  test.each(files)('%s: the order reaches the truth', (name) => {
    const situation = situationSchema.parse(JSON.parse(readFileSync(`${folder}/${name}`, 'utf8')));
    const { situation: told, faults } = readCase(situation.case, knowledge);
    expect(faults).toEqual([]);
    expect(Object.keys(knowledge.causes)).toContain(situation.truth);
    for (const [check, outcome] of Object.entries(situation.answers))
      expect(
        knowledge.checks[check]?.outcomes.map(({ id }) => id),
        check,
      ).toContain(outcome);

    const found = answer(told as Case, knowledge, defaultBudget);
    const played = found.comparison.map((other) =>
      playThrough(found.formulation, other.policy, situation.truth, situation.answers, knowledge),
    );
    const mine = played[0]!;
    table.push([
      name.replace('.json', ''),
      ...played.map((run) => `${run.fixed ? '' : 'H '}${run.cost.toFixed(0)}`),
      `${mine.steps.length}`,
    ]);

    const path = mine.steps.map((step) => `${step.id}${step.result ? `=${step.result}` : ''}`).join(' > ');
    if (knowledge.causes[situation.truth]!.repair.professionalOnly) {
      const results = mine.steps.filter((step) => step.kind === 'check').map((step) => ({ check: step.id, outcome: step.result! }));
      const after = belief({ ...told, results: [...(told!.results ?? []), ...results] }, knowledge);
      expect(after.causes[0]?.id, path).toBe(situation.truth);
    } else expect(mine.fixed, path).toBe(true);
  });

  test('the table of costs is printed (H: handed over)', () => {
    const head = ['situation', ...Object.values(strategyTitles), 'steps'];
    console.log(
      [head, ...table].map((row) => row.map((cell, column) => (column === 0 ? cell.padEnd(44) : cell.padStart(16))).join('')).join('\n'),
    );
    expect(table.length).toBe(files.length);
  });
});
