import { cpSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/model/problem.ts';
import { badFolder, goodFolder } from '../model/bad-content.ts';
import { copyOfProject, project, run } from './command-line.ts';

describe('npm run check', () => {
  it('is content with good content and says how much it read', () => {
    expect(run(project, 'check', '--root', 'tests/good')).toEqual({ code: 0, out: '22 files read: 0 errors, 0 warnings.\n', err: '' });
  });

  it('finds nothing wrong with what is shipped', () => {
    const { code, out } = run(project, 'check', '--format', 'json');
    const { problems } = JSON.parse(out) as { problems: Problem[] };
    expect(
      problems.filter((problem) => problem.severity === 'error').map((problem) => `${problem.file}:${problem.line} ${problem.what}`),
    ).toEqual([]);
    expect(code).toBe(0);
  });

  it('reports faults of many kinds in one run, and exits 1', () => {
    const folder = copyOfProject(goodFolder);
    // Each bad example spoils the same few files, so those that do not overlap are laid over each other.
    const laid = [
      'yaml-boolean-word',
      'unknown-folder',
      'bad-file-name',
      'file-not-plain',
      'hazard-without-caution',
      'code-twice',
      'family-without-code',
      'scope-does-not-sum',
      'row-does-not-sum',
      'limits-overlap',
      'duplicate-id',
    ];
    for (const code of laid) cpSync(join(badFolder, code, 'content'), join(folder, 'content'), { recursive: true });
    writeFileSync(join(folder, 'content/terms/fuel-trim.yaml'), 'title: [1\n');
    const { code, out } = run(folder, 'check', '--format', 'json');
    const { problems, errors } = JSON.parse(out) as { problems: { code: string; file: string; line: number }[]; errors: number };
    expect(code).toBe(1);
    expect(errors).toBeGreaterThanOrEqual(10);
    const found = new Set(problems.map((problem) => problem.code));
    for (const expected of [
      'yaml-boolean-word',
      'unknown-folder',
      'bad-file-name',
      'file-not-plain',
      'hazard-without-caution',
      'code-twice',
      'scope-does-not-sum',
      'row-does-not-sum',
      'limits-overlap',
      'duplicate-id',
      'yaml-syntax',
    ])
      expect(found).toContain(expected);
  });

  it('exits 0 when there are only warnings', () => {
    const folder = copyOfProject(goodFolder);
    cpSync(join(badFolder, 'weak-check/content'), join(folder, 'content'), { recursive: true });
    const { code, out } = run(folder, 'check');
    expect(code).toBe(0);
    expect(out).toContain('warning  weak-check');
    expect(out).toMatch(/0 errors, 1 warning\.\n$/);
  });

  it('writes annotations for a pull request', () => {
    const folder = copyOfProject(goodFolder);
    cpSync(join(badFolder, 'out-of-range/content'), join(folder, 'content'), { recursive: true });
    expect(run(folder, 'check', '--format', 'github').out).toBe(
      '::error file=content/causes/worn-plugs.yaml,line=20,col=10,endColumn=12,title=out-of-range::"repair > holds" is 95; it must be at most 1. Correct it. The schema says: Chance that the repair, done right, removes this cause.\n::notice::22 files read: 1 error, 0 warnings.\n',
    );
  });

  it('carries the warning of an order that flips easily in every form, and exits 0', () => {
    const folder = copyOfProject(goodFolder);
    cpSync(join(badFolder, 'order-flips-easily/content'), join(folder, 'content'), { recursive: true });
    const { problems } = JSON.parse(run(folder, 'check', '--format', 'json').out) as { problems: Problem[] };
    expect(problems.map(({ code, severity, file }) => ({ code, severity, file }))).toEqual([
      { code: 'order-flips-easily', severity: 'warning', file: 'content/families/rough-idle.yaml' },
    ]);
    const { code, out } = run(folder, 'check', '--format', 'github');
    expect(code).toBe(0);
    expect(out).toMatch(
      /^::warning file=content\/families\/rough-idle\.yaml,line=\d+,col=\d+,endColumn=\d+,title=order-flips-easily::Looking /,
    );
    expect(run(folder, 'check', 'content/checks').out).not.toContain('order-flips-easily');
  });

  it('shows only the files that it is asked for', () => {
    const folder = copyOfProject(goodFolder);
    cpSync(join(badFolder, 'out-of-range/content'), join(folder, 'content'), { recursive: true });
    expect(run(folder, 'check', 'content/checks').code).toBe(0);
    expect(run(folder, 'check', 'content/causes/worn-plugs.yaml').code).toBe(1);
  });

  it.each([
    ['an unknown format', ['--format', 'jsn'], '--format jsn is not known; it is one of text, github, json. Did you mean json?'],
    ['an unknown option', ['--formt', 'json'], "Unknown option '--formt'"],
    [
      'a file that is not there',
      ['content/tools/plier.yaml', '--root', 'tests/good'],
      'content/tools/plier.yaml is no content file. Did you mean content/tools/pliers.yaml?',
    ],
    ['a root without content', ['--root', 'tests'], 'There is no folder content in'],
  ])('answers %s with one line and exit code 2', (_name, given, says) => {
    const { code, out, err } = run(project, 'check', ...given);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(says);
    expect(err).toContain('Usage: npm run check');
    expect(err).not.toContain('    at ');
  });

  it('refuses links out of the content', () => {
    const folder = copyOfProject(goodFolder);
    rmSync(join(folder, 'content/tools/pliers.yaml'));
    cpSync(join(folder, 'package.json'), join(folder, 'elsewhere.yaml'));
    symlinkSync(join(folder, 'elsewhere.yaml'), join(folder, 'content/tools/pliers.yaml'));
    const { code, out } = run(folder, 'check');
    expect(code).toBe(1);
    expect(out).toContain('content/tools/pliers.yaml:1:1  error  file-not-plain\n  It is a symbolic link.');
  });
});
