import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadContent } from '../../src/model/load.ts';
import { problemCodes } from '../../src/model/problem-codes.ts';
import { textReport } from '../../src/model/report.ts';
import { rules } from '../../src/model/rules/index.ts';
import { badExample, badFolder, codesOnDisk, goodFiles, madeExamples } from './bad-content.ts';

const codes = Object.keys(problemCodes);

describe('the good world', () => {
  it('has a file of every kind and is silent', () => {
    const { content, problems } = loadContent(goodFiles);
    expect(problems).toEqual([]);
    for (const [kind, files] of Object.entries(content)) expect(files.size, kind).toBeGreaterThan(0);
  });
});

describe('the problem codes', () => {
  it('each have a bad example, and no example is left over', () => {
    expect([...codesOnDisk, ...Object.keys(madeExamples)].sort()).toEqual([...codes].sort());
  });

  it('include those of all rules', () => {
    for (const rule of rules) expect(codes).toContain(rule.code);
  });
});

describe('the bad example', () => {
  it.each(codesOnDisk)('for %s yields only that code, with the expected report', async (code) => {
    const { files, problems } = badExample(code);
    expect([...new Set(problems.map((problem) => problem.code))]).toEqual([code]);
    await expect(`${textReport(problems, files)}\n`).toMatchFileSnapshot(join(badFolder, code, 'expected.txt'));
  });

  it.each(Object.keys(madeExamples).filter((code) => code !== 'too-many-problems'))('for %s yields only that code', (code) => {
    const { problems } = badExample(code);
    expect(problems.map((problem) => problem.code)).toEqual([code]);
  });

  it('for too-many-problems shows the first five hundred', () => {
    const { problems } = badExample('too-many-problems');
    expect(problems.filter((problem) => problem.code === 'too-many-problems')).toHaveLength(1);
    expect(problems).toHaveLength(501);
    expect(problems.find((problem) => problem.code === 'too-many-problems')!.what).toBe(
      'The file has 507 problems; the first 500 are shown.',
    );
  });
});
