import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { allFiles } from './built-pages.ts';

/** Two whole builds take minutes: `LAMPWISE_SLOW=1 npx vitest run --config tests/vitest.config.ts same-bytes`. */
const slow = process.env.LAMPWISE_SLOW === '1';

test.skipIf(!slow)('two builds, in different languages and time zones, give the same bytes', { timeout: 1_200_000 }, () => {
  const build = (folder: string, env: Readonly<Record<string, string>>) => {
    const done = spawnSync(process.execPath, ['scripts/build.ts', '--out', folder], { encoding: 'utf8', env: { ...process.env, ...env } });
    expect(done.stderr, done.stdout).toBe('');
    expect(done.status).toBe(0);
    return allFiles(folder);
  };
  const first = build('.cache/bytes-1', { TZ: 'UTC', LC_ALL: 'C' });
  const second = build('.cache/bytes-2', { TZ: 'Pacific/Auckland', LC_ALL: 'tr_TR.UTF-8' });
  expect(second).toEqual(first);
  const differing = first.filter((path) => !readFileSync(join('.cache/bytes-1', path)).equals(readFileSync(join('.cache/bytes-2', path))));
  expect(differing).toEqual([]);
});
