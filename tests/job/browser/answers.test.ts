import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ServedSite, serveSite, siteIsBuilt, watch } from '../../browser.ts';
import { knowledgeOf, openJob, stepOnScreen } from './walk.ts';

let site: ServedSite;
beforeAll(async () => {
  if (siteIsBuilt) site = await serveSite();
}, 60_000);
afterAll(async () => {
  await site?.close();
});

async function withPage(use: (page: Page) => Promise<void>): Promise<void> {
  const context = await site.browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  const { faults } = watch(page, site.origin);
  try {
    await use(page);
    expect(faults).toEqual([]);
  } finally {
    await context.close();
  }
}

const topCause = async (page: Page) => (await page.locator('.beliefs tbody tr').first().textContent()) ?? '';
const doneLines = (page: Page) => page.locator('.done li');

describe.skipIf(!siteIsBuilt)('answers at the job page', () => {
  test('a job starts from symptoms alone, and from the last work on the car', { timeout: 60_000 }, () =>
    withPage(async (page) => {
      await openJob(page, site.origin);
      await stepOnScreen(page);
      const before = await topCause(page);
      await page.locator('details.part summary', { hasText: 'What do you notice?' }).click();
      await page.getByLabel('Search a symptom, in your own words').fill('shak');
      await page.getByRole('group', { name: 'Shakes at a stop light' }).getByRole('button', { name: 'Yes' }).click();
      await page.locator('details.part summary', { hasText: 'What was worked on last?' }).click();
      await page.getByLabel('Plugs, leads or coils').check();
      await expect.poll(() => page.locator('.moved').allTextContents()).toHaveLength(2);
      expect(await topCause(page)).not.toBe(before);
      expect(await stepOnScreen(page)).toMatch(/^(check|repair) /);
    }),
  );

  test('what cannot be done or is put aside is not asked again, until it is taken up', { timeout: 60_000 }, () =>
    withPage(async (page) => {
      await openJob(page, site.origin, '#codes=P0171');
      const first = await stepOnScreen(page);
      await page.getByRole('button', { name: 'I can’t do this here' }).click();
      await expect.poll(() => stepOnScreen(page)).not.toBe(first);
      const second = await stepOnScreen(page);
      await page.getByRole('button', { name: 'Put it aside for now' }).click();
      await expect.poll(() => stepOnScreen(page)).not.toBe(second);
      await page.locator('.others summary').click();
      const { checks } = await knowledgeOf(page);
      const offered = await page.locator('.others th button').allTextContents();
      for (const step of [first, second]) expect(offered).not.toContain(checks[step.split(' ')[1]!]?.title);
      await doneLines(page).nth(1).locator('summary').click();
      await page.getByRole('button', { name: 'Take it up again' }).click();
      await expect.poll(() => stepOnScreen(page)).toBe(second);
    }),
  );

  test('an old answer can be changed, and the causes move back as if it had been so from the start', { timeout: 60_000 }, () =>
    withPage(async (page) => {
      await openJob(page, site.origin, '#codes=P0171');
      await stepOnScreen(page);
      const buttons = page.locator('[data-outcome]');
      const titles = await buttons.locator('b').allTextContents();
      await buttons.nth(0).click();
      await expect.poll(() => doneLines(page).count()).toBe(1);
      const good = await topCause(page);
      await doneLines(page).locator('summary').click();
      await doneLines(page).getByLabel('Answer').selectOption({ label: titles[1]! });
      await expect.poll(() => topCause(page)).not.toBe(good);
      await page.getByRole('button', { name: 'Undo' }).click();
      await expect.poll(async () => (await topCause(page)).split('%')[0]).toBe(good.split('%')[0]);
    }),
  );

  test('something else that was found goes straight to its repair, then to the proof', { timeout: 60_000 }, () =>
    withPage(async (page) => {
      await openJob(page, site.origin, '#codes=P0171');
      await stepOnScreen(page);
      await page.getByRole('button', { name: 'I found something else' }).click();
      await page.getByLabel('Note for the job sheet').fill('Mouse nest on the intake');
      await page.getByRole('button', { name: 'None of these: something that is not listed' }).click();
      expect(await stepOnScreen(page)).toBe('confirmed ');
      await page.getByRole('button', { name: 'Mended, the fault is gone so far' }).click();
      expect(await stepOnScreen(page)).toBe('proof');
      expect(await page.locator('.done').textContent()).toContain('Mouse nest');
    }),
  );

  test('a typed reading gives its outcome by the limits, in the unit of the gauge at hand', { timeout: 60_000 }, () =>
    withPage(async (page) => {
      await openJob(page, site.origin, '#codes=P0171');
      await stepOnScreen(page);
      await page.locator('.others summary').click();
      // Whatever check with a number is on offer will do: pick until one shows.
      const offers = await page.locator('.others th button').count();
      let entry = page.locator('.reading-entry');
      for (let index = 0; index < offers && (await entry.count()) === 0; index++) {
        await page.locator('.others th button').nth(index).click();
        await page.waitForTimeout(300);
        if ((await page.locator('.others').getAttribute('open')) === null) await page.locator('.others summary').click();
        entry = page.locator('.reading-entry');
      }
      expect(await entry.count(), 'a check with a number is among the first').toBe(1);
      await entry.locator('input').fill('zero');
      expect(await entry.locator('[role="status"]').textContent()).toBe('This is no number.');
      await entry.locator('input').fill('-999');
      const low = await entry.locator('[role="status"]').textContent();
      await entry.locator('input').fill('99999');
      const high = await entry.locator('[role="status"]').textContent();
      expect(low, 'far below and far above are not the same result').not.toBe(high);
      expect(`${low} ${high}`).toContain('That is: ');
      expect(await page.locator('button.derived').count()).toBeLessThanOrEqual(1);
    }),
  );
});
