import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ServedSite, serveSite, siteIsBuilt } from '../../browser.ts';
import { openJob, stepOnScreen } from './walk.ts';

let site: ServedSite;
beforeAll(async () => {
  if (siteIsBuilt) site = await serveSite();
}, 60_000);
afterAll(async () => {
  await site?.close();
});

async function withContext(use: (context: BrowserContext) => Promise<void>): Promise<void> {
  const context = await site.browser.newContext({ viewport: { width: 1280, height: 800 } });
  try {
    await use(context);
  } finally {
    await context.close();
  }
}

const codes = (page: Page) => page.getByLabel(/Type or paste codes/);
const name = (page: Page) => page.getByLabel('Name, such as the car');
const kept = (page: Page) => page.waitForSelector('[data-keep="kept"]');
const importFile = (page: Page, text: string) =>
  page.locator('input[type="file"]').setInputFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(text) });

async function exported(page: Page): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Export' }).click()]);
  return readFileSync(await download.path(), 'utf8');
}

describe.skipIf(!siteIsBuilt)('a job is kept', () => {
  test('several jobs side by side; each comes back as it was', { timeout: 60_000 }, () =>
    withContext(async (context) => {
      const page = await context.newPage();
      await openJob(page, site.origin);
      await codes(page).fill('P0171');
      await name(page).fill('The old estate');
      await kept(page);
      await page.getByRole('button', { name: 'New job' }).click();
      await expect.poll(() => codes(page).inputValue()).toBe('');
      await codes(page).fill('P0401');
      await kept(page);
      await page.reload();
      await page.waitForSelector('#job[data-ready]');
      expect(await codes(page).inputValue()).toBe('P0401');
      await page.getByText('Other jobs on this device').click();
      await page.getByRole('button', { name: /^The old estate/ }).click();
      await expect.poll(() => codes(page).inputValue()).toBe('P0171');
    }),
  );

  test('exported, deleted and imported again it is the same job; a hostile file changes nothing', { timeout: 60_000 }, () =>
    withContext(async (context) => {
      const page = await context.newPage();
      await openJob(page, site.origin, '#codes=P0171');
      await stepOnScreen(page);
      await page.locator('[data-outcome]').first().click();
      await expect.poll(() => page.locator('.done li').count()).toBe(1);
      await kept(page);
      const text = await exported(page);
      for (const bad of ['{', '[]', '{"form":"lampwise-job","version":99}', text.replace('"timeline"', '"timeline<script>"')]) {
        await importFile(page, bad);
        await expect.poll(() => page.locator('.notice').textContent()).toContain('Nothing was changed');
        await page.locator('.notice button').click();
        expect(await page.locator('.done li').count()).toBe(1);
      }
      await page.getByRole('button', { name: 'New job' }).click();
      await expect.poll(() => page.locator('.done li').count()).toBe(0);
      await importFile(page, text);
      await expect.poll(() => page.locator('.done li').count()).toBe(1);
      const { id: first, ...job } = JSON.parse(text).job;
      const { id: second, ...again } = JSON.parse(await exported(page)).job;
      expect(again).toEqual(job);
      expect(second, 'an imported job stands beside what is there').not.toBe(first);
    }),
  );

  test('a link carries the whole job to another device', { timeout: 60_000 }, () =>
    withContext(async (context) => {
      const page = await context.newPage();
      await openJob(page, site.origin, '#codes=P0301');
      await name(page).fill('Shared car');
      await page.getByRole('button', { name: 'Share by link' }).click();
      const address = await page.getByLabel('The link').inputValue();
      expect(new URL(address).hash.length).toBeGreaterThan(20);
      await withContext(async (elsewhere) => {
        const other = await elsewhere.newPage();
        await other.goto(address);
        await other.waitForSelector('#job[data-ready]');
        expect(await name(other).inputValue()).toBe('Shared car');
        expect(await codes(other).inputValue()).toBe('P0301');
        expect(new URL(other.url()).hash, 'the address is that of the job').toMatch(/^#job=/);
      });
      await page.goto(`${site.origin}/codes-of-nothing/`).catch(() => null);
      await openJob(page, site.origin, '#shared=AAAA');
      await expect.poll(() => page.locator('.notice').textContent()).toContain('damaged or cut off');
      expect(await name(page).inputValue(), 'what was here is still here').toBe('Shared car');
    }),
  );

  test('two windows on one job follow each other', { timeout: 60_000 }, () =>
    withContext(async (context) => {
      const first = await context.newPage();
      await openJob(first, site.origin, '#codes=P0171');
      await name(first).fill('Car');
      await kept(first);
      const second = await context.newPage();
      await openJob(second, site.origin);
      expect(await name(second).inputValue()).toBe('Car');
      await name(second).fill('Car of the second window');
      await kept(second);
      await expect.poll(() => name(first).inputValue()).toBe('Car of the second window');
    }),
  );

  test('a full device is said, and the job goes on in the window', { timeout: 60_000 }, () =>
    withContext(async (context) => {
      const page = await context.newPage();
      await openJob(page, site.origin, '#codes=P0171');
      await kept(page);
      await page.evaluate(() => {
        IDBObjectStore.prototype.put = () => {
          throw new DOMException('no room', 'QuotaExceededError');
        };
      });
      await name(page).fill('More');
      await page.waitForSelector('[data-keep="full"]');
      expect(await page.locator('[data-keep]').textContent()).toContain('The device is full');
      expect(JSON.parse(await exported(page)).job.name).toBe('More');
    }),
  );

  test('a record of a newer page is left alone, and that is said', { timeout: 60_000 }, () =>
    withContext(async (context) => {
      const page = await context.newPage();
      await openJob(page, site.origin, '#codes=P0171');
      await kept(page);
      await page.evaluate(async () => {
        const database = await new Promise<IDBDatabase>((resolve) => {
          const opening = indexedDB.open('lampwise');
          opening.onsuccess = () => resolve(opening.result);
        });
        const store = database.transaction('jobs', 'readwrite').objectStore('jobs');
        const text = JSON.stringify({ form: 'lampwise-job', version: 2, anything: true });
        await new Promise((resolve) => {
          store.put({ id: 'newer', name: 'From a newer page', savedAt: Date.now() + 1e6, revision: 1, text }).onsuccess = resolve;
        });
      });
      await page.goto(`${site.origin}/job/`);
      await page.waitForSelector('#job[data-ready]');
      expect(await page.locator('.notice').textContent()).toContain('Load the page anew');
      await name(page).fill('Another');
      await kept(page);
      const text = await page.evaluate(async () => {
        const database = await new Promise<IDBDatabase>((resolve) => {
          const opening = indexedDB.open('lampwise');
          opening.onsuccess = () => resolve(opening.result);
        });
        return new Promise<string>((resolve) => {
          const reading = database.transaction('jobs').objectStore('jobs').get('newer');
          reading.onsuccess = () => resolve(reading.result.text);
        });
      });
      expect(JSON.parse(text)).toEqual({ form: 'lampwise-job', version: 2, anything: true });
    }),
  );

  test('the job sheet prints on one or two pages', { timeout: 60_000 }, () =>
    withContext(async (context) => {
      const page = await context.newPage();
      await openJob(page, site.origin, '#codes=P0171');
      for (let step = 0; step < 4; step++) {
        const on = await stepOnScreen(page);
        await page.locator('[data-outcome]').first().click();
        await page.waitForFunction((last) => document.querySelector('[data-step]')?.getAttribute('data-step') !== last, on);
      }
      await stepOnScreen(page);
      const pdf = (await page.pdf({ format: 'A4' })).toString('latin1');
      const pages = pdf.match(/\/Type\s*\/Page[^s]/g)?.length ?? 0;
      expect(pages).toBeGreaterThan(0);
      expect(pages).toBeLessThanOrEqual(2);
    }),
  );

  test('every control on a phone is at least 48 pixels high and wide', { timeout: 60_000 }, async () => {
    const context = await site.browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
    const page = await context.newPage();
    await openJob(page, site.origin, '#codes=P0171');
    await stepOnScreen(page);
    for (const summary of await page.locator('details.part > summary').all()) await summary.click();
    await page.locator('.others summary').click();
    const small = await page.evaluate(() =>
      [...document.querySelectorAll('main button, main input, main select, main textarea, main summary')]
        .filter((element) => element.checkVisibility() && element.getClientRects().length > 0)
        .map((element) => ({ text: element.outerHTML.slice(0, 80), box: (element.closest('label') ?? element).getBoundingClientRect() }))
        .filter(({ box }) => box.height < 47.5 || box.width < 47.5)
        .map(({ text, box }) => `${text} ${box.width} x ${box.height}`),
    );
    expect(small).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth), 'nothing stands out at the side').toBe(390);
    await context.close();
  });
});
