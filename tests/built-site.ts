/**
 * Builds the site once for all tests that look at it, into .cache/test-site, and again only when something that it is made of
 * has changed. Runs that name test files without pages do without it.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { keyOf } from '../src/kept/store.ts';

const folder = '.cache/test-site';

/** Names all that the site is made of. */
function stateOfSources(): string {
  const paths = ['src', 'content', 'scripts/build', 'scripts/content'].flatMap((top) =>
    readdirSync(top, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name)),
  );
  return keyOf(
    ...[...paths, 'astro.config.mjs', 'package-lock.json'].sort().flatMap((path) => [path, readFileSync(path).toString('latin1')]),
  );
}

export function setup(): void {
  if (process.env.LAMPWISE_OUT) return;
  const named = process.argv.slice(2).filter((argument) => !argument.startsWith('-') && !['run', 'watch', 'tests'].includes(argument));
  if (named.length > 0 && !named.some((name) => /pages|browser|built/.test(name))) return;
  process.env.LAMPWISE_OUT = folder;
  const state = stateOfSources();
  if (existsSync(`${folder}/index.html`) && existsSync(`${folder}.state`) && readFileSync(`${folder}.state`, 'utf8') === state) return;
  const built = spawnSync(process.execPath, ['scripts/build.ts', '--out', folder], { encoding: 'utf8' });
  if (built.status !== 0) throw new Error(`The site could not be built for the tests:\n${built.stdout}\n${built.stderr}`);
  writeFileSync(`${folder}.state`, state);
}
