import { expect, test, vi } from 'vitest';
import { figure, percent, quantile, Report } from '../../scripts/bench/figures.ts';
import { project, run } from './command-line.ts';

test('a bench prints one document with --json: tables with rows by column, figures with their units', () => {
  const { code, out } = run(project, 'bench', 'engine', '--sizes', '4x4', '--models', '1', '--nodes', '100', '--json');
  expect(code).toBe(0);
  const [table] = JSON.parse(out) as { title: string; rows: Record<string, unknown>[] }[];
  expect(table?.title).toBe('Planner');
  expect(table?.rows).toHaveLength(1);
  expect(table?.rows[0]).toMatchObject({ model: '4x4 no. 1', nodes: { unit: '' }, gap: { unit: '%' }, plan: { unit: 's' } });
});

test('an unknown bench is named, with those there are; an option without a bench too', () => {
  const unknown = run(project, 'bench', 'speed');
  expect(unknown.code).toBe(2);
  expect(unknown.err).toContain('No such bench: speed. There are: pages, search, job, engine, looseness, build.');
  const stray = run(project, 'bench', '--families');
  expect(stray.code).toBe(2);
  expect(stray.err).toContain('--families is an option of one bench: npm run bench -- NAME --families.');
});

test('tables print in columns as their rows come, and nothing at the end', () => {
  const lines: string[] = [];
  const log = vi.spyOn(console, 'log').mockImplementation((line: string) => void lines.push(line));
  const report = new Report(false);
  report.table('Weights', ['page', 'all', 'goal']);
  report.row(['home', figure(46.123, 'kB', 1), '<= 100 kB, of which 15 kB script']);
  expect(lines).toHaveLength(3);
  report.end();
  log.mockRestore();
  expect(lines[0]).toBe('Weights');
  expect(lines[2]).toMatch(/^home +46\.1 kB {2}<= 100 kB, of which 15 kB script$/);
});

test('figures: quantiles take the value that the share does not exceed, percents have two decimals below ten', () => {
  expect([0, 0.5, 0.95, 1].map((share) => quantile([5, 1, 4, 2, 3], share))).toEqual([1, 3, 5, 5]);
  expect(quantile([], 0.5)).toBeNaN();
  expect([percent(0.0567), percent(0.567)]).toEqual(
    [figure(5.67, '%', 2), figure(56.7, '%', 1)].map((x) => ({ ...x, value: expect.closeTo(x.value, 9) })),
  );
});
