import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { knowledgeOrExit } from '../../scripts/content/knowledge.ts';
import { sheets } from '../../src/bench/sheets/index.ts';
import { views } from '../../src/bench/views.ts';
import { readSaved } from '../../src/job/saved/saved.ts';

const { knowledge } = knowledgeOrExit();
const has = (kind: string, id: string) => existsSync(`content/${kind}/${id}.yaml`);

describe('sheets of the bench', () => {
  test('every sheet has a calculator and every calculator a sheet', () => {
    expect(sheets.map(({ id }) => id).sort()).toEqual(Object.keys(views).sort());
  });

  test.each(sheets.map((sheet) => [sheet.id, sheet] as const))('%s shows formula, worked figures, limits and sources', (_, sheet) => {
    expect(sheet.formula.length * sheet.limits.length * sheet.sources.length).toBeGreaterThan(0);
    const tables = sheet.worked(knowledge);
    expect(tables.length).toBeGreaterThan(0);
    for (const { head, rows } of tables) {
      expect(rows.length).toBeGreaterThan(1);
      for (const row of rows) {
        expect(row.length).toBe(head.length);
        for (const cell of row) expect(cell).not.toMatch(/NaN|undefined|null|Infinity|^–$|^$/);
      }
    }
  });

  test.each(sheets.map((sheet) => [sheet.id, sheet] as const))(
    '%s names only checks, families, terms and sources that the content has',
    (_, sheet) => {
      const missing = [
        ...sheet.checks.filter((id) => !has('checks', id)),
        ...sheet.families.filter((id) => !has('families', id)),
        ...sheet.terms.filter((id) => !has('terms', id)),
        ...sheet.sources.flatMap((source) =>
          'reference' in source && !has('sources', source.reference.split(' ')[0]!) ? source.reference : [],
        ),
      ];
      expect(missing).toEqual([]);
    },
  );
});

describe('what the bench hands to a job', () => {
  const text = readdirSync('src/bench/view')
    .map((name) => readFileSync(`src/bench/view/${name}`, 'utf8'))
    .join('\n');

  test('checks named in a result exist, with the outcomes that the calculators give', () => {
    const given: Record<string, readonly string[]> = {
      'compression-test': ['even', 'one-low', 'neighbours-low', 'all-low'],
      'wet-compression-test': ['rises', 'stays'],
      'read-manifold-vacuum': ['steady-normal', 'steady-low'],
      'measure-coolant-sensor-resistance': ['fits', 'reads-cold', 'reads-hot'],
    };
    expect([...new Set([...text.matchAll(/check: '([a-z-]+)'/g)].map((match) => match[1]!))].sort()).toEqual(Object.keys(given).sort());
    for (const [check, outcomes] of Object.entries(given)) {
      const known = knowledge.checks[check]!.outcomes.map(({ id }) => id);
      expect(outcomes.filter((outcome) => !known.includes(outcome))).toEqual([]);
    }
  });

  test.each([
    [{ trims: { idleBank1Percent: 20, at2500Bank1Percent: 4 } }],
    [{ codes: ['P0301', 'P0304'], engine: { cylinders: 4, firingOrder: [1, 3, 4, 2], bank1: [], layout: 'inline' } }],
    [{ codes: ['P0300', 'P0301'], engine: { cylinders: 6, firingOrder: [1, 2, 3, 4, 5, 6], bank1: [1, 3, 5], layout: 'v' } }],
    [{ results: [{ check: 'compression-test', outcome: 'one-low' }] }],
  ])('the job page reads %j', (situation) => {
    const reading = readSaved(JSON.parse(JSON.stringify(situation)));
    expect(reading.ok ? '' : reading.says).toBe('');
  });
});
