/** The example worlds of tests/good and tests/bad: a good one that is silent, and for each code a few files that spoil it. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { type DiskContent, readContent } from '../../scripts/content/read.ts';
import { strengths } from '../../src/compile/order.ts';
import { checkContent } from '../../src/model/check-content.ts';
import { loadContent, longestFile } from '../../src/model/load.ts';
import { byPosition, type ContentFile, type Problem } from '../../src/model/problem.ts';
import type { ProblemCode } from '../../src/model/problem-codes.ts';

const tests = join(import.meta.dirname, '..');
export const goodFolder = join(tests, 'good');
export const badFolder = join(tests, 'bad');
export const goodFiles: readonly ContentFile[] = readContent(goodFolder).files;

/** Codes with an example on disk. */
export const codesOnDisk: readonly string[] = readdirSync(badFolder).sort();

const pliers = join(goodFolder, 'content/tools/pliers.yaml');

/** Codes whose example cannot stand in a repository: too large, or unreadable. */
export const madeExamples: Partial<Record<ProblemCode, () => DiskContent>> = {
  'file-too-large': () => asRead([{ path: 'content/tools/long-list.yaml', text: `title: ${'x'.repeat(longestFile)}\n` }]),
  'too-many-problems': () =>
    asRead([{ path: 'content/tools/pliers.yaml', text: Array.from({ length: 501 }, (_, i) => `wrong${i}: 1\n`).join('') }]),
  'file-unreadable': () =>
    readContent(goodFolder, (path) => {
      if (path === pliers) throw new Error('EIO: i/o error, read');
      return new TextEncoder().encode(goodFiles.find((file) => path.endsWith(file.path))!.text);
    }),
};

const asRead = (files: readonly ContentFile[]): DiskContent => ({ files, problems: [] });

/** `base` with the files of `over` in place of those of the same path. */
export function overlay(base: readonly ContentFile[], over: readonly ContentFile[]): readonly ContentFile[] {
  const paths = new Set(over.map((file) => file.path));
  return [...base.filter((file) => !paths.has(file.path)), ...over];
}

/** All content of the example for `code`, and the problems that reading and loading it finds. */
export function badExample(code: string): { readonly files: readonly ContentFile[]; readonly problems: readonly Problem[] } {
  const disk = madeExamples[code as ProblemCode]?.() ?? readContent(join(badFolder, code));
  const unread = disk.problems.map((problem) => problem.file);
  const files = overlay(goodFiles, disk.files).filter((file) => !unread.includes(file.path));
  return { files, problems: [...disk.problems, ...checkContent(files, unread, strengths)].sort(byPosition) };
}

/** Problems of the good world with `text` in the place of one of its files. */
export const problemsWith = (path: string, text: string): readonly Problem[] => loadContent(overlay(goodFiles, [{ path, text }])).problems;

/** The good world's text of one file. */
export const goodText = (path: string): string => goodFiles.find((file) => file.path === path)!.text;
