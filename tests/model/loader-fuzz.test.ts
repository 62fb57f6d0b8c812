/** Random and mutated YAML through the loader: always problems with positions inside the file, never an exception. Runs are seeded. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileKnowledge } from '../../src/model/compile-knowledge.ts';
import { loadContent } from '../../src/model/load.ts';
import { problemCodes } from '../../src/model/problem-codes.ts';
import { githubReport, jsonReport, textReport } from '../../src/model/report.ts';
import { kinds } from '../../src/model/schema/index.ts';
import { plainText } from '../../src/model/source-text.ts';
import { goodFiles, overlay } from './bad-content.ts';

const seed = 20260101;
const cases = 200;
/** A busy machine is no reason to fail. */
const patience = 60_000;

/** Loads the good world with one file replaced, reports in all formats, and looks at every position. */
function survives(path: string, text: string): void {
  const files = overlay(goodFiles, [{ path, text }]);
  const { content, problems } = loadContent(files);
  if (problems.every((problem) => problem.severity === 'warning')) {
    const compiled = JSON.stringify(compileKnowledge(content, 'hash'), (_key, value: unknown) =>
      Number.isNaN(value) || value === Infinity ? 'not finite' : value,
    );
    expect(compiled).not.toContain('not finite');
  }
  for (const problem of problems) {
    expect(Object.keys(problemCodes)).toContain(problem.code);
    const lines = plainText(files.find((file) => file.path === problem.file)?.text ?? '').split('\n');
    expect(problem.line).toBeGreaterThanOrEqual(1);
    expect(problem.line).toBeLessThanOrEqual(lines.length);
    expect(problem.column).toBeGreaterThanOrEqual(1);
    expect(problem.column).toBeLessThanOrEqual(lines[problem.line - 1]!.length + 1);
    expect(problem.length).toBeGreaterThanOrEqual(1);
    expect(problem.what.length).toBeLessThan(1200);
    expect(`${problem.what} ${problem.mend}`).not.toMatch(/undefined|\[object|Invalid input/);
  }
  textReport(problems, files);
  githubReport(problems, files);
  JSON.parse(jsonReport(problems, files));
}

const scalars = [
  '',
  '~',
  'yes',
  '1,5',
  '.nan',
  '-.inf',
  '1e999',
  '0x1F',
  '"\\u202e"',
  '*a',
  '&a',
  '!!set',
  '<<',
  '__proto__',
  'a: b',
  '[',
  ']',
  '{',
  '}',
  '- ',
  '? ',
  '|',
  '>-',
  '\t',
  '#',
  '%',
  '@',
  "'",
  '"',
  '---',
  '...',
  '\uFEFF',
  '\r',
  '\0',
  '\u2028',
  '😀',
];
const goodFile = fc.constantFrom(...goodFiles);

describe('the loader survives', () => {
  it(
    `${cases} good files with pieces cut, doubled, swapped or replaced`,
    () => {
      const edit = fc.record({
        at: fc.double({ min: 0, max: 1, noNaN: true }),
        cut: fc.nat(12),
        put: fc.oneof(fc.constantFrom(...scalars), fc.string({ unit: 'binary', maxLength: 6 }), fc.constant('\n'), fc.constant('  ')),
      });
      fc.assert(
        fc.property(goodFile, fc.array(edit, { minLength: 1, maxLength: 6 }), (file, edits) => {
          const text = edits.reduce((soFar, { at, cut, put }) => {
            const place = Math.floor(at * soFar.length);
            return soFar.slice(0, place) + put + soFar.slice(place + cut);
          }, file.text);
          survives(file.path, text);
        }),
        { seed, numRuns: cases },
      );
    },
    patience,
  );

  it(
    `${cases} files of any text`,
    () => {
      fc.assert(
        fc.property(
          fc.constantFrom(...kinds),
          fc.oneof(
            fc.string({ unit: 'binary' }),
            fc.array(fc.constantFrom(...scalars, '\n', ' ', 'a', ': '), { maxLength: 60 }).map((parts) => parts.join('')),
          ),
          (kind, text) => survives(`content/${kind}/anything.yaml`, text),
        ),
        { seed, numRuns: cases },
      );
    },
    patience,
  );

  it(
    `${cases} good files with any JSON value in the place of one of their values`,
    () => {
      fc.assert(
        fc.property(goodFile, fc.nat(), fc.jsonValue({ maxDepth: 3 }), (file, which, value) => {
          const lines = file.text.split('\n');
          const keyed = lines.flatMap((line, index) => (/^ *[a-zA-Z]+: /.test(line) ? [index] : []));
          const index = keyed[which % keyed.length]!;
          lines[index] = lines[index]!.replace(/: .*$/, () => `: ${JSON.stringify(value)}`);
          survives(file.path, lines.join('\n'));
        }),
        { seed, numRuns: cases },
      );
    },
    patience,
  );

  it(
    `${cases} odd paths`,
    () => {
      fc.assert(
        fc.property(
          fc.oneof(
            fc.string({ unit: 'binary' }),
            fc.constantFrom(
              'content/../etc/passwd',
              'content/tools/../../x.yaml',
              'content//x.yaml',
              'content/tools/.yaml',
              'content/__proto__/x.yaml',
              'content/tools/constructor.yaml',
              'C:\\content\\tools\\x.yaml',
            ),
          ),
          (path) => {
            const { problems } = loadContent([...goodFiles, { path, text: 'title: x\n' }]);
            expect(problems.some((problem) => problem.file === path && problem.severity === 'error')).toBe(true);
          },
        ),
        { seed, numRuns: cases },
      );
    },
    patience,
  );

  it.each([
    [
      'an alias bomb',
      `a: &a [x, x]\n${'bcdefghij'
        .split('')
        .map((key, i) => `${key}: &${key} [${`*${'abcdefghij'[i]}, `.repeat(9)}]`)
        .join('\n')}`,
      'yaml-alias',
    ],
    ['a reserved key, quoted and within', '{"__proto__": {owned: true}}', 'yaml-reserved-key'],
    ['brackets without end', '['.repeat(150_000), 'yaml-too-deep'],
    ['lists within lists on one line', '- '.repeat(90_000), 'yaml-too-deep'],
    ['keys within keys on one line', '? '.repeat(90_000), 'yaml-too-deep'],
    ['maps within maps', Array.from({ length: 400 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'), 'yaml-too-deep'],
    ['a string of a megabyte', `title: ${'x'.repeat(1_000_000)}`, 'file-too-large'],
    ['a string of 190 kB', `title: ${'x'.repeat(190_000)}`, 'out-of-range'],
    ['twenty thousand unknown keys', Array.from({ length: 20_000 }, (_, i) => `k${i}: 1`).join('\n'), 'too-many-problems'],
    ['twenty thousand equal keys', 'k: 1\n'.repeat(20_000), 'yaml-duplicate-key'],
    ['ninety thousand tabs', '\t\n'.repeat(90_000), 'wrong-type'],
    ['a hundred thousand hidden characters', '\u200B'.repeat(100_000), 'unsafe-text'],
  ])('%s without running into the time-out of a test', { timeout: patience }, (_name, text, code) => {
    const { problems } = loadContent(overlay(goodFiles, [{ path: 'content/tools/pliers.yaml', text }]));
    expect(problems.map((problem) => problem.code)).toContain(code);
    expect(({} as { owned?: unknown }).owned).toBeUndefined();
    textReport(problems, []);
  });
});
