/**
 * npm run bench -- pages [--out FOLDER] [--json]: what the first load of each kind of page weighs, compressed as it is served
 * (Brotli), and what the offline copy takes. Of each kind the page with most HTML; the offline copy comes after the page, by the
 * service worker, and is no part of its first load.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { brotliCompressSync } from 'node:zlib';
import type { Browser } from 'playwright-core';
import { figure, Report } from './figures.ts';
import { filesIn } from './files.ts';
import { serveFolder } from './serve.ts';

const { values } = parseArgs({ options: { out: { type: 'string', default: 'dist' }, json: { type: 'boolean', default: false } } });

/** The page with most HTML of each kind: a kind is the first folder of the address, its list a kind of its own. */
function heaviestPages(): readonly { readonly kind: string; readonly path: string; readonly pages: number }[] {
  const kinds = new Map<string, { path: string; bytes: number; pages: number }>();
  for (const { path: file, bytes } of filesIn(values.out)) {
    if (!/(^|\/)index\.html$/.test(file)) continue;
    const path = `/${file.replace(/index\.html$/, '')}`;
    const [top = '', ...below] = path.split('/').filter(Boolean);
    const kind = below.length > 0 ? `/${top}/.../` : `/${top}${top && '/'}`;
    const known = kinds.get(kind) ?? { path, bytes: 0, pages: 0 };
    kinds.set(kind, { ...(bytes > known.bytes ? { path, bytes } : known), pages: known.pages + 1 });
  }
  return [...kinds].map(([kind, { path, pages }]) => ({ kind, path, pages })).sort((a, b) => a.kind.localeCompare(b.kind, 'en'));
}

/** Fonts are compressed already. */
const compressed = (path: string): number => {
  const bytes = readFileSync(join(values.out, path.endsWith('/') ? `${path}index.html` : path));
  return path.endsWith('.woff2') ? bytes.length : brotliCompressSync(bytes).length;
};

async function firstLoad(browser: Browser, origin: string, path: string): Promise<readonly { path: string; bytes: number }[]> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  const loaded = new Set<string>();
  page.on('response', (response) => loaded.add(new URL(response.url()).pathname));
  await page.goto(origin + path, { waitUntil: 'networkidle' });
  await context.close();
  return [...loaded].map((name) => ({ path: name, bytes: compressed(name) }));
}

/** Milliseconds until everything is there without a network, and bytes of what is kept. */
async function offlineCopy(browser: Browser, origin: string): Promise<{ milliseconds: number; entries: number; bytes: number }> {
  const context = await browser.newContext();
  const page = await context.newPage();
  const start = performance.now();
  await page.goto(origin);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  const milliseconds = performance.now() - start;
  const kept = await page.evaluate(async () => {
    let entries = 0;
    let bytes = 0;
    for (const name of await caches.keys()) {
      const cache = await caches.open(name);
      for (const request of await cache.keys()) {
        entries++;
        bytes += (await (await cache.match(request))!.blob()).size;
      }
    }
    return { entries, bytes };
  });
  await context.close();
  return { milliseconds, ...kept };
}

const BUDGETS: Readonly<Record<string, string>> = {
  '/codes/.../': '<= 100 kB, JS <= 15 kB',
  '/bench/.../': 'JS <= 16 kB',
  '/job/': 'JS <= 60 kB with worker',
};

const report = new Report(values.json);
const site = await serveFolder(values.out);
try {
  report.table('First load by kind of page, compressed', [
    'kind: the heaviest of it',
    'pages',
    'all',
    'HTML',
    'JS',
    'CSS',
    'fonts',
    'files',
    'budget',
  ]);
  for (const { kind, path, pages } of heaviestPages()) {
    const loaded = await firstLoad(site.browser, site.origin, path);
    const kilobytes = (which: RegExp) =>
      figure(loaded.filter((file) => which.test(file.path)).reduce((sum, { bytes }) => sum + bytes, 0) / 1000, 'kB', 1);
    report.row([
      `${kind}: ${path}`,
      figure(pages, ''),
      kilobytes(/./),
      kilobytes(/\/$/),
      kilobytes(/\.m?js$/),
      kilobytes(/\.css$/),
      kilobytes(/\.woff2$/),
      figure(loaded.length, ''),
      BUDGETS[kind] ?? '',
    ]);
  }
  const { milliseconds, entries, bytes } = await offlineCopy(site.browser, site.origin);
  report.table('Offline copy', ['what', 'entries', 'unpacked', 'until there']);
  report.row([
    'everything the service worker keeps',
    figure(entries, ''),
    figure(bytes / 1e6, 'MB', 1),
    figure(milliseconds / 1000, 's', 1),
  ]);
  report.end();
} finally {
  await site.close();
}
