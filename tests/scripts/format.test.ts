import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { tidy } from '../../scripts/content/tidy.ts';
import { goodFiles, goodFolder } from '../model/bad-content.ts';
import { copyOfProject, run } from './command-line.ts';

describe('tidying YAML', () => {
  it('takes away marks, carriage returns, trailing spaces and runs of blank lines', () => {
    expect(tidy('\uFEFF\n# why  \r\na:   1 \t\r\n\r\n\r\n\r\nb: [1,2]\r\n\r\n')).toBe('# why\na:   1\n\nb: [1,2]\n');
  });

  it('leaves comments, quotes, folding and order as they were written', () => {
    const text = "# top\nb: 'x'   # why\na: >-\n  folded\n  text\n\nc: {z: 1,   y: 2}\n";
    expect(tidy(text)).toBe(text);
  });

  it('never changes a value: a literal block keeps the ends of its lines', () => {
    const text = 'a: |\n  one  \n  two\n\n\n\n  three\n';
    expect(parse(tidy(text))).toEqual(parse(text));
  });

  it('is idempotent and keeps the meaning, whatever is strewn into a good file', () => {
    const strewn = fc.array(
      fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(' ', '  \n', '\n\n\n', '\r\n', '\t', ' # why  \n')),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(fc.constantFrom(...goodFiles), strewn, ({ text }, pieces) => {
        const before = pieces.reduce((soFar, [at, piece]) => {
          const place = Math.floor(at * soFar.length);
          return soFar.slice(0, place) + piece + soFar.slice(place);
        }, text);
        const after = tidy(before);
        expect(tidy(after)).toBe(after);
        const read = (source: string) => {
          try {
            return parse(source.replaceAll(/\r\n?/g, '\n')) as unknown;
          } catch {
            return 'not YAML';
          }
        };
        expect(read(after)).toEqual(read(before));
      }),
      { seed: 17, numRuns: 300 },
    );
  });

  it('leaves the good world byte for byte', () => {
    for (const file of goodFiles) expect(tidy(file.text)).toBe(file.text);
  });
});

describe('npm run format', () => {
  it('tidies content and then has nothing left to do', () => {
    const folder = copyOfProject(goodFolder);
    const path = join(folder, 'content/tools/pliers.yaml');
    const text = readFileSync(path, 'utf8');
    writeFileSync(path, `\uFEFF${text.replaceAll('\n', '  \r\n')}`);
    expect(run(folder, 'format', '--content', '--check')).toMatchObject({
      code: 1,
      out: 'content/tools/pliers.yaml would change: run npm run format.\n',
    });
    expect(run(folder, 'format', '--content')).toMatchObject({ code: 0, out: 'content/tools/pliers.yaml tidied.\n' });
    expect(readFileSync(path, 'utf8')).toBe(text);
    expect(run(folder, 'format', '--content')).toMatchObject({ code: 0, out: '' });
  });

  it('has nothing to do on what is shipped', () => {
    expect(run(copyOfProject(), 'format', '--content', '--check')).toEqual({ code: 0, out: '', err: '' });
  });

  it('leaves bytes that are not UTF-8 to the check', () => {
    const folder = copyOfProject(goodFolder);
    const bytes = Buffer.from('title: \xc4 pair  \n', 'latin1');
    writeFileSync(join(folder, 'content/tools/pliers.yaml'), bytes);
    expect(run(folder, 'format', '--content').out).toBe('');
    expect(readFileSync(join(folder, 'content/tools/pliers.yaml')).equals(bytes)).toBe(true);
  });
});
