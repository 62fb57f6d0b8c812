/** Projects of their own with the little content of tests/good: whole builds in seconds, away from the tree. */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, realpathSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { filesNamedByPages } from '../../scripts/bench/generated-content.ts';
import type { ContentFile } from '../../src/model/problem.ts';
import { goodFiles } from '../model/bad-content.ts';

const project = join(import.meta.dirname, '../..');

/** The good content with parts that cost enough for looks to come before a purchase, and not so much that no repair pays. */
const prices: Readonly<Record<string, string>> = { 'spark-plug': '{low: 30, high: 40}', hose: '{low: 100, high: 140}' };
const dear: readonly ContentFile[] = goodFiles.map(({ path, text: contents }) => {
  const price = prices[path.match(/^content\/parts\/(.+)\.yaml$/)?.[1] ?? ''];
  return { path, text: price ? contents.replace(/^price: .*$/m, `price: ${price}`) : contents };
});

/** Content of a few files, of every kind. */
export const smallContent: readonly ContentFile[] = dear;
/** Copies of some of it under the names that pages use by hand: a build needs them too. */
export const namedByPages: readonly ContentFile[] = filesNamedByPages(dear);

/** A project with this content and the sources of `from`, in a new folder for temporary files. The caller deletes it. */
export function projectWith(content: readonly ContentFile[], name = 'lampwise-', from = project): string {
  const folder = mkdtempSync(join(realpathSync(tmpdir()), name));
  for (const part of ['src', 'scripts', 'astro.config.mjs', 'package.json', 'tsconfig.json'])
    cpSync(join(from, part), join(folder, part), { recursive: true });
  symlinkSync(join(project, 'node_modules'), join(folder, 'node_modules'));
  for (const { path, text: contents } of content) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), contents);
  }
  return folder;
}

export interface Build {
  readonly site: string;
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The command that builds the site of a project into its `site`. */
export const buildCommand = ['scripts/build.ts', '--out', 'site'] as const;

export const buildEnvironment = (changes: NodeJS.ProcessEnv = {}): NodeJS.ProcessEnv => {
  const { LAMPWISE_OUT: _, SITE_URL: __, NODE_ENV: ___, VITEST: ____, ...rest } = process.env;
  return { ...rest, ...changes };
};

/** Builds the whole site of a project. */
export function build(folder: string, environment: NodeJS.ProcessEnv = {}): Build {
  const { status, stdout, stderr } = spawnSync(process.execPath, buildCommand, {
    cwd: folder,
    encoding: 'utf8',
    env: buildEnvironment(environment),
  });
  return { site: join(folder, 'site'), code: status, out: stdout, err: stderr };
}

/** The site of a build that must succeed. */
export function built(folder: string, environment: NodeJS.ProcessEnv = {}): string {
  const { site, code, out, err } = build(folder, environment);
  if (code !== 0 || !existsSync(join(site, 'index.html'))) throw new Error(`The small site was not built:\n${out}\n${err}`);
  return site;
}
