import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { builtSite, type ServedSite, serveSite } from '../browser.ts';
import { allPages } from './built-pages.ts';

let site: ServedSite;
beforeAll(async () => {
  site = await serveSite();
});
afterAll(() => site.close());

const compressed = (path: string) => {
  const bytes = readFileSync(join(builtSite, path.endsWith('/') ? `${path}index.html` : path));
  // Fonts are compressed already.
  return path.endsWith('.woff2') ? bytes.length : gzipSync(bytes).length;
};

test('the first load of the heaviest code page is at most 100 kB compressed, of which at most 15 kB are JavaScript', async () => {
  const heaviest = allPages()
    .filter(({ path }) => /^\/codes\/[a-z0-9]+\/$/.test(path))
    .reduce((most, page) => (page.html.length > most.html.length ? page : most));
  // The offline copy is fetched after the page, by the service worker, and is no part of its first load.
  const context = await site.browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  const loaded: string[] = [];
  page.on('response', (response) => loaded.push(new URL(response.url()).pathname));
  await page.goto(site.origin + heaviest.path, { waitUntil: 'networkidle' });
  await context.close();
  const sizes = loaded.map((path) => ({ path, bytes: compressed(path) }));
  const sum = (list: typeof sizes) => list.reduce((total, { bytes }) => total + bytes, 0);
  console.log(
    `${heaviest.path}: ${sum(sizes)} bytes in ${sizes.length} files\n${sizes.map(({ path, bytes }) => `  ${bytes} ${path}`).join('\n')}`,
  );
  expect(sum(sizes)).toBeLessThanOrEqual(100_000);
  expect(sum(sizes.filter(({ path }) => path.endsWith('.js')))).toBeLessThanOrEqual(15_000);
});
