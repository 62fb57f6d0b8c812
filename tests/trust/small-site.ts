/** Projects of their own with the little content of tests/good: whole builds in seconds, away from the tree. */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, realpathSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { sheets } from '../../src/bench/sheets/index.ts';
import type { ContentFile } from '../../src/model/problem.ts';
import { goodFiles } from '../model/bad-content.ts';

const project = join(import.meta.dirname, '../..');
const text = (path: string): string => goodFiles.find((file) => file.path === path)!.text;

/** The good content with parts that cost enough for looks to come before a purchase, and not so much that no repair pays. */
const prices: Readonly<Record<string, string>> = { 'spark-plug': '{low: 30, high: 40}', hose: '{low: 100, high: 140}' };
const dear: readonly ContentFile[] = goodFiles.map(({ path, text: contents }) => {
  const price = prices[path.match(/^content\/parts\/(.+)\.yaml$/)?.[1] ?? ''];
  return { path, text: price ? contents.replace(/^price: .*$/m, `price: ${price}`) : contents };
});

/** What the calculators name beside themselves, as copies of what the good content has. */
function namedByBench(): readonly ContentFile[] {
  const stand = {
    // Dear, so that none of them stands in the plan for the first.
    checks: text('content/checks/read-plug-gap.yaml').replace(/^attendedMinutes: .*$/m, 'attendedMinutes: 600'),
    families: text('content/families/rough-idle.yaml'),
    terms: text('content/terms/fuel-trim.yaml'),
    sources: text('content/sources/common-practice.yaml'),
  };
  const paths = new Map<string, string>();
  for (const sheet of sheets) {
    const sources = sheet.sources.flatMap((source) => ('reference' in source ? [source.reference.split(' ')[0]!] : []));
    for (const [kind, ids] of Object.entries({ checks: sheet.checks, families: sheet.families, terms: sheet.terms, sources }))
      for (const id of ids) paths.set(`content/${kind}/${id}.yaml`, stand[kind as keyof typeof stand]);
  }
  return [...paths].filter(([path]) => !goodFiles.some((file) => file.path === path)).map(([path, copy]) => ({ path, text: copy }));
}

/** Content of a few files, of every kind. */
export const smallContent: readonly ContentFile[] = dear;
/** Copies of some of it under the names that pages use by hand: a build needs them too. */
export const namedByPages: readonly ContentFile[] = namedByBench();

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
