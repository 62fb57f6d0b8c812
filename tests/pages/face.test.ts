import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ServedSite, serveSite } from '../browser.ts';
import { stepOnScreen } from '../job/browser/walk.ts';

let site: ServedSite;
beforeAll(async () => {
  site = await serveSite();
});
afterAll(() => site.close());

async function withPage(options: Parameters<ServedSite['browser']['newPage']>[0], use: (page: Page) => Promise<void>): Promise<void> {
  const page = await site.browser.newPage({ serviceWorkers: 'block', ...options });
  try {
    await use(page);
  } finally {
    await page.close();
  }
}

describe('colours of the system alone', () => {
  test('what is drawn keeps its lines, cautions and lamps keep their own colours', () =>
    withPage({ forcedColors: 'active', viewport: { width: 820, height: 1180 } }, async (page) => {
      await page.goto(`${site.origin}/codes/p0401/`);
      const drawn = await page.evaluate(() => {
        const probe = document.createElement('span');
        probe.style.cssText = 'color: CanvasText; background: Canvas';
        document.body.append(probe);
        const { color: text, backgroundColor: paper } = getComputedStyle(probe);
        const style = (selector: string) => getComputedStyle(document.querySelector(selector)!);
        return {
          bar: style('.bar-now').fill === text,
          arrow: style('.flow-arrow').stroke === text,
          curve: style('.curve-line').stroke === text,
          signal: style('.caution-signal').backgroundColor !== paper,
          button: style('.start-job .button').borderTopStyle,
        };
      });
      expect(drawn).toEqual({ bar: true, arrow: true, curve: true, signal: true, button: 'solid' });
    }));
});

describe('by keyboard alone', () => {
  test.each(['/', '/codes/p0401/', '/checks/', '/bench/units/', '/evidence/', '/proof/', '/job/#codes=P0301'])(
    'every stop on %s shows that it is the stop, in the order of the page',
    (path) =>
      withPage({ viewport: { width: 820, height: 1180 } }, async (page) => {
        await page.goto(site.origin + path);
        if (path.startsWith('/job/')) await stepOnScreen(page);
        let last = -1;
        for (let stop = 0; stop < 25; stop += 1) {
          await page.keyboard.press('Tab');
          const at = await page.evaluate(() => {
            const here = document.activeElement!;
            return {
              order: [...document.querySelectorAll('*')].indexOf(here),
              name: (here.textContent || here.getAttribute('aria-label') || here.id).trim().slice(0, 40),
              outline: getComputedStyle(here).outlineStyle,
              inView: here.getBoundingClientRect().bottom > 0 && here.getBoundingClientRect().top < innerHeight,
            };
          });
          if (at.order <= last) break;
          last = at.order;
          expect(at).toMatchObject({ outline: 'solid', inView: true });
        }
        expect(last).toBeGreaterThan(0);
      }),
  );

  test('a step opens with Enter and the first stop leads past the masthead', () =>
    withPage({ viewport: { width: 820, height: 1180 } }, async (page) => {
      await page.goto(`${site.origin}/codes/p0401/`);
      await page.keyboard.press('Tab');
      expect(await page.evaluate(() => document.activeElement?.getAttribute('href'))).toBe('#main');
      await page.locator('.step summary').first().focus();
      await page.keyboard.press('Enter');
      expect(await page.locator('.step details').first().getAttribute('open')).toBe('');
    }));
});

describe('the masthead', () => {
  test.each([360, 390])('has its places in one row on a phone %d pixels wide, wherever one is', (width) =>
    withPage({ viewport: { width, height: 844 } }, async (page) => {
      for (const path of ['/', '/symptoms/shakes-at-stop-light/', '/bench/units/', '/search/']) {
        await page.goto(site.origin + path);
        await page.evaluate(() => document.fonts.ready);
        const tops = await page.locator('.masthead nav a').evaluateAll((links) => links.map((link) => link.getBoundingClientRect().top));
        expect(new Set(tops).size, path).toBe(1);
      }
    }),
  );
});

describe('open jobs on the first page', () => {
  test('a device without jobs shows none and gets no store', () =>
    withPage({}, async (page) => {
      await page.goto(`${site.origin}/`, { waitUntil: 'networkidle' });
      expect(await page.locator('[data-open-jobs]').isHidden()).toBe(true);
      expect(await page.evaluate(async () => (await indexedDB.databases()).length)).toBe(0);
    }));

  test('those kept are listed, the latest first, without the program of the job page; each leads to itself', { timeout: 60_000 }, () =>
    withPage({ viewport: { width: 820, height: 1180 } }, async (page) => {
      const codes = page.getByLabel(/Type or paste codes/);
      for (const code of ['P0171', 'P0401']) {
        await page.goto(`${site.origin}/job/`);
        await page.waitForSelector('#job[data-ready]');
        if (code !== 'P0171') await page.getByRole('button', { name: 'New job' }).click();
        await expect.poll(() => codes.inputValue()).toBe('');
        await codes.fill(code);
        await page.waitForSelector('[data-keep="kept"]');
      }
      const scripts: string[] = [];
      page.on('request', (request) => request.resourceType() === 'script' && scripts.push(new URL(request.url()).pathname));
      await page.goto(`${site.origin}/`);
      const jobs = page.locator('[data-open-jobs] a');
      await jobs.first().waitFor();
      expect(await jobs.locator('b').allTextContents()).toEqual(['P0401', 'P0171']);
      expect(scripts.filter((path) => /preact|signals|client|mount/.test(path))).toEqual([]);
      await jobs.last().click();
      await page.waitForSelector('#job[data-ready]');
      await expect.poll(() => codes.inputValue()).toBe('P0171');
    }),
  );

  test.each([390, 820, 1280])('nothing moves when they appear, %d pixels wide (layout shift under 0.02)', { timeout: 60_000 }, (width) =>
    withPage({ viewport: { width, height: 844 } }, async (page) => {
      for (const code of ['P0171', 'P0401', 'P0301']) {
        await page.goto(`${site.origin}/job/#codes=${code}`);
        await page.waitForSelector('[data-keep="kept"]');
        await expect.poll(() => page.url()).toContain('#job=');
      }
      await page.goto('about:blank');
      await page.goto(`${site.origin}/`);
      await page.locator('[data-open-jobs] a').nth(2).waitFor();
      const shift = await page.evaluate(
        () =>
          new Promise<number>((resolve) => {
            let sum = 0;
            new PerformanceObserver((list) => {
              for (const entry of list.getEntries() as (PerformanceEntry & { value: number })[]) sum += entry.value;
            }).observe({ type: 'layout-shift', buffered: true });
            setTimeout(() => resolve(sum), 500);
          }),
      );
      console.log(`layout shift of the first page with three open jobs, ${width} px: ${shift.toFixed(4)}`);
      expect(shift).toBeLessThan(0.02);
    }),
  );
});
