import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ServedSite, serveSite } from '../browser.ts';
import { openJob, stepOnScreen } from '../job/browser/walk.ts';
import { allPages } from './built-pages.ts';

let site: ServedSite;
beforeAll(async () => {
  site = await serveSite();
});
afterAll(() => site.close());

/** One page of each kind of route, and every calculator. */
const sample = [
  ...Map.groupBy(
    allPages().map(({ path }) => path),
    (path) => path.replace(/^(\/(?!bench)[a-z-]+\/)[^/]+\/$/, '$1*'),
  ).values(),
].map((paths) => paths[0]!);

async function withPage(width: number, use: (page: Page) => Promise<void>): Promise<void> {
  const page = await site.browser.newPage({ serviceWorkers: 'block', viewport: { width, height: 844 } });
  try {
    await use(page);
  } finally {
    await page.close();
  }
}

/** Pixels by which the page is wider than its window with everything open, and what stands out farthest; null when it fits. */
const over = (page: Page, letters: string): Promise<string | null> =>
  page.evaluate((size) => {
    document.documentElement.style.fontSize = size;
    for (const details of document.querySelectorAll('details')) details.open = true;
    const { scrollWidth, clientWidth } = document.documentElement;
    if (scrollWidth <= clientWidth) return null;
    const inside = (element: Element) => element.closest('.scroll, .flowchart-view, pre, .formula, .flowlist');
    const stands = (element: Element) => !inside(element) && element.getBoundingClientRect().right > clientWidth;
    const innermost = [...document.querySelectorAll('main *')].filter((element) => stands(element) && ![...element.children].some(stands));
    return `${scrollWidth - clientWidth} px: ${innermost.map((element) => element.outerHTML.slice(0, 90)).join(' ')}`;
  }, letters);

const widths = [
  ['on a phone', 390, '100%'],
  ['on a tablet', 820, '100%'],
  ['on a phone with letters twice as large (WCAG 1.4.4, 1.4.10)', 390, '200%'],
] as const;

describe.each(widths)('nothing stands out at the side, with everything open, %s', (_, width, letters) => {
  test('on every kind of page', { timeout: 120_000 }, () =>
    withPage(width, async (page) => {
      const wide: string[] = [];
      for (const path of sample) {
        await page.goto(site.origin + path);
        if (path === '/job/') await page.waitForSelector('#job[data-ready]');
        const by = await over(page, letters);
        if (by !== null) wide.push(`${path} by ${by}`);
      }
      expect(sample.length).toBeGreaterThan(30);
      expect(wide).toEqual([]);
    }),
  );

  test('in a job, from its first check to its proof', { timeout: 120_000 }, () =>
    withPage(width, async (page) => {
      await openJob(page, site.origin, '#codes=P0301,P0171');
      const wide: string[] = [];
      const look = async (where: string) => {
        const by = await over(page, letters);
        if (by !== null) wide.push(`${where} by ${by}`);
      };
      for (let count = 0; count < 3; count++) {
        const step = await stepOnScreen(page);
        await look(step);
        await page.locator('[data-outcome], button:has-text("the fault is still there")').first().click();
        await page.waitForFunction((last) => document.querySelector('[data-step]')?.getAttribute('data-step') !== last, step);
      }
      await page.getByRole('button', { name: 'I found something else' }).click();
      await page.locator('.found-else li button').first().click();
      await look(await stepOnScreen(page));
      await page.getByRole('button', { name: 'the fault is gone so far' }).click();
      expect(await stepOnScreen(page)).toBe('proof');
      await page.getByLabel(/^Before the repair it came back/).fill('3');
      await page.getByLabel(/^within/).fill('400');
      await page.getByLabel(/^Since the repair/).fill('100');
      await page.getByLabel(/^Since the repair/).blur();
      await page.locator('.clock table').waitFor();
      await look('proof');
      expect(wide).toEqual([]);
    }),
  );
});
