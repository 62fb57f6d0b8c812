/**
 * Builds the small site of hostile texts once for all tests that look at it, and again only when something that it is made of
 * has changed. They take it as it is, or a copy to spoil.
 */
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { keyOf } from '../../src/kept/store.ts';
import { madeHostile } from './hostile-texts.ts';
import { built, namedByPages, projectWith, smallContent } from './small-site.ts';

export const hostile = madeHostile(smallContent);
export const hostileFiles = [...hostile.files, ...namedByPages];

/** The project; its site stands in `site` below it. */
export const hostileProject = join(import.meta.dirname, '../../.cache/hostile');
/** As a build that depends on nothing of whoever starts it. */
export const plainEnvironment = { LANG: 'C.UTF-8', LC_ALL: 'C.UTF-8', TZ: 'UTC' };

function stateOfSources(): string {
  const paths = ['src', 'scripts'].flatMap((top) =>
    readdirSync(top, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name)),
  );
  return keyOf(
    ...[...paths, 'astro.config.mjs', 'package-lock.json'].sort().flatMap((path) => [path, readFileSync(path).toString('latin1')]),
    JSON.stringify(hostileFiles),
  );
}

export function setup(): void {
  const named = process.argv.slice(2).filter((argument) => !argument.startsWith('-') && !['run', 'watch', 'tests'].includes(argument));
  if (named.length > 0 && !named.some((name) => /trust\/?$|hostile-content|sure-builds/.test(name))) return;
  const state = join(hostileProject, stateOfSources());
  if (existsSync(state)) return;
  const folder = projectWith(hostileFiles);
  try {
    built(folder, plainEnvironment);
    rmSync(hostileProject, { recursive: true, force: true });
    cpSync(folder, hostileProject, { recursive: true, verbatimSymlinks: true });
    mkdirSync(state);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
