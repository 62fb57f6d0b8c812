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

async function withPage(use: (page: Page, context: BrowserContext) => Promise<void>): Promise<void> {
  const context = await site.browser.newContext({ viewport: { width: 820, height: 1180 }, serviceWorkers: 'block' });
  try {
    await use(await context.newPage(), context);
  } finally {
    await context.close();
  }
}

const codes = (page: Page) => page.getByLabel(/Type or paste codes/);
const name = (page: Page) => page.getByLabel('Name, such as the car');
const kept = (page: Page) => page.waitForSelector('[data-keep="kept"]');
const hash = (page: Page) => new URL(page.url()).hash;

describe.skipIf(!siteIsBuilt)('each job has an address', { timeout: 60_000 }, () => {
  test('that opens it again, in this window or another, whichever was touched last', () =>
    withPage(async (page, context) => {
      await openJob(page, site.origin, '#codes=P0171');
      await kept(page);
      const first = page.url();
      expect(hash(page)).toMatch(/^#job=/);
      await page.getByRole('button', { name: 'New job' }).click();
      await codes(page).fill('P0401');
      await kept(page);
      expect(page.url()).not.toBe(first);
      const other = await context.newPage();
      await other.goto(first);
      await other.waitForSelector('#job[data-ready]');
      expect(await codes(other).inputValue()).toBe('P0171');
      expect(await other.title()).toContain('P0171');
    }));

  test('back and forward go from job to job', () =>
    withPage(async (page) => {
      await openJob(page, site.origin, '#codes=P0171');
      await kept(page);
      await page.getByRole('button', { name: 'New job' }).click();
      await codes(page).fill('P0401');
      await kept(page);
      await page.goBack();
      await expect.poll(() => codes(page).inputValue()).toBe('P0171');
      await page.goForward();
      await expect.poll(() => codes(page).inputValue()).toBe('P0401');
    }));

  test('what was touched last is there again, though the window closed before the device had written it', () =>
    withPage(async (page) => {
      await openJob(page, site.origin, '#codes=P0171');
      await kept(page);
      const address = page.url();
      // From here on this window cannot write.
      await page.evaluate(() => {
        const begin = IDBDatabase.prototype.transaction;
        IDBDatabase.prototype.transaction = function (this: IDBDatabase, stores, mode, options) {
          if (mode === 'readwrite') throw new DOMException('the device is busy', 'UnknownError');
          return begin.call(this, stores, mode, options);
        };
      });
      await name(page).fill('Touched last');
      await page.waitForSelector('[data-keep="failed"]');
      await page.goto(`${site.origin}/about/`);
      await page.goto(address);
      await page.waitForSelector('#job[data-ready]');
      await expect.poll(() => name(page).inputValue()).toBe('Touched last');
      expect(await codes(page).inputValue()).toBe('P0171');
    }));

  test('one that this device does not have is said, and nothing is lost', () =>
    withPage(async (page) => {
      await openJob(page, site.origin, '#codes=P0171');
      await kept(page);
      await page.goto(`${site.origin}/job/#job=of-elsewhere`);
      await expect.poll(() => page.locator('.notice').textContent()).toContain('not on this device');
      expect(await codes(page).inputValue()).toBe('P0171');
      expect(hash(page)).not.toContain('elsewhere');
    }));

  test('a symptom leads to a job that begins with it; one that nobody knows to none', () =>
    withPage(async (page) => {
      await page.goto(`${site.origin}/symptoms/shakes-at-stop-light/`);
      await page.getByRole('link', { name: 'Start a job with this symptom' }).click();
      await page.waitForSelector('#job[data-ready]');
      await kept(page);
      await expect.poll(() => hash(page)).toMatch(/^#job=/);
      await page.getByText('What do you notice?').click();
      const told = page.locator('fieldset.present', { hasText: 'Shakes at a stop light' });
      await told.waitFor();
      expect(await told.getByRole('button', { name: 'Yes' }).getAttribute('aria-pressed')).toBe('true');
      await page.goto(`${site.origin}/job/#symptoms=constructor`);
      await expect.poll(() => hash(page)).toMatch(/^#job=/);
    }));

  test('undo goes on after a reload', () =>
    withPage(async (page) => {
      await openJob(page, site.origin, '#codes=P0171');
      await stepOnScreen(page);
      await page.locator('[data-outcome]').first().click();
      await kept(page);
      await page.reload();
      await page.waitForSelector('#job[data-ready]');
      expect(await page.locator('.done li').count()).toBe(1);
      await page.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(() => page.locator('.done li').count()).toBe(0);
      expect(await codes(page).inputValue()).toBe('P0171');
    }));
});

describe.skipIf(!siteIsBuilt)('figures from the bench', { timeout: 60_000 }, () => {
  const take = async (page: Page) => {
    await page.goto(`${site.origin}/bench/fuel-trim/`);
    await page.waitForSelector('[data-ready]');
    await page.getByRole('button', { name: 'Take these trims into a job' }).click();
    await page.waitForSelector('#job[data-ready]');
  };
  const trims = (page: Page) =>
    page.evaluate(async () => {
      const database = await new Promise<IDBDatabase>((resolve) => {
        const opening = indexedDB.open('lampwise');
        opening.onsuccess = () => resolve(opening.result);
      });
      const records = await new Promise<{ text: string }[]>((resolve) => {
        const reading = database.transaction('jobs').objectStore('jobs').getAll();
        reading.onsuccess = () => resolve(reading.result);
      });
      return records
        .map(({ text }) => JSON.parse(text).job)
        .map((job) => [job.name, job.inputs.codes.join(' '), job.inputs.trims.idleBank1Percent ?? null])
        .sort();
    });

  test('go into the open job, into another one, into a new one or into none, as one says', () =>
    withPage(async (page) => {
      await openJob(page, site.origin, '#codes=P0171');
      await name(page).fill('Car A');
      await kept(page);
      await page.getByRole('button', { name: 'New job' }).click();
      await codes(page).fill('P0172');
      await name(page).fill('Car B');
      await kept(page);

      await take(page);
      await page.getByRole('button', { name: 'Into none' }).click();
      expect(await trims(page)).toEqual([
        ['Car A', 'P0171', null],
        ['Car B', 'P0172', null],
      ]);
      await take(page);
      await page.getByRole('button', { name: 'Into this job: Car B' }).click();
      await expect.poll(() => trims(page)).toContainEqual(['Car B', 'P0172', 20]);
      await take(page);
      await page.getByRole('button', { name: /^Into Car A/ }).click();
      await expect.poll(() => name(page).inputValue()).toBe('Car A');
      await take(page);
      await page.getByRole('button', { name: 'Into a new job' }).click();
      await expect
        .poll(() => trims(page))
        .toEqual([
          ['', '', 20],
          ['Car A', 'P0171', 20],
          ['Car B', 'P0172', 20],
        ]);
    }));
});
