import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ServedSite, serveSite, watch } from '../browser.ts';

let site: ServedSite;
beforeAll(async () => {
  site = await serveSite();
});
afterAll(() => site.close());

const sideways = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

describe.each([
  ['tablet', 820, 1180],
  ['phone', 390, 844],
] as const)('a code on a %s', (_, width, height) => {
  test('its tree opens by touch down to a cause, its order step by step, and nothing runs off the side', async () => {
    const context = await site.browser.newContext({ viewport: { width, height }, hasTouch: true, serviceWorkers: 'block' });
    const page = await context.newPage();
    const seen = watch(page, site.origin);
    await page.goto(`${site.origin}/codes/p0301/`);
    expect(await sideways(page)).toBeLessThanOrEqual(0);

    const step = page.locator('#step-1');
    await step.locator('summary').first().tap();
    await step.locator('.step-body').waitFor();
    expect(await step.locator('.work-steps li').count()).toBeGreaterThan(0);
    expect(await sideways(page)).toBeLessThanOrEqual(0);

    const tree = page.locator('.tree-root');
    for (;;) {
      const shut = tree.locator('details:not([open]) > summary').and(page.locator(':visible')).first();
      if ((await shut.count()) === 0) break;
      await shut.tap();
    }
    expect(await sideways(page)).toBeLessThanOrEqual(0);
    const cause = tree.getByRole('link').first();
    const box = (await cause.boundingBox())!;
    expect(box.height).toBeGreaterThanOrEqual(24);
    await cause.tap();
    await page.waitForURL(/\/causes\//);
    expect(seen.faults).toEqual([]);
    await context.close();
  });
});

test('the flowchart is a picture with real links, and can be made smaller and larger', async () => {
  const page = await site.browser.newPage({ viewport: { width: 820, height: 1180 }, serviceWorkers: 'block' });
  await page.goto(`${site.origin}/codes/p0401/`);
  const picture = page.locator('svg.flow');
  const width = async () => Number(await picture.getAttribute('width'));
  const before = await width();
  expect(before).toBeGreaterThan(200);
  await page.getByRole('button', { name: 'Smaller' }).click();
  expect(await width()).toBeLessThan(before);
  await page.getByRole('button', { name: 'Larger' }).click();
  expect(await width()).toBeCloseTo(before, 0);
  expect(await picture.locator('a[href^="/checks/"]').count()).toBeGreaterThan(0);
  await page.close();
});

test('on a phone the flowchart begins at its first box, and the letters of the curve are no smaller than 12 pixels', async () => {
  const page = await site.browser.newPage({ viewport: { width: 390, height: 844 }, serviceWorkers: 'block' });
  await page.goto(`${site.origin}/codes/p0401/`);
  await page.getByRole('button', { name: 'Smaller' }).waitFor();
  const seen = await page.evaluate(() => {
    const box = (selector: string) => document.querySelector(selector)!.getBoundingClientRect();
    const [view, first, curve] = [box('.flowchart-view'), box('svg.flow .flow-box rect'), box('.curve > svg')];
    const letters = Number.parseFloat(getComputedStyle(document.querySelector('.curve-tick')!).fontSize);
    const scale = curve.width / document.querySelector<SVGSVGElement>('.curve > svg')!.viewBox.baseVal.width;
    return { left: first.left - view.left, right: view.right - first.right, letters: letters * scale };
  });
  expect(seen.left).toBeGreaterThanOrEqual(0);
  expect(seen.right).toBeGreaterThanOrEqual(0);
  expect(seen.letters).toBeGreaterThanOrEqual(12);
  await page.close();
});

test('the words beside the flowchart name the same boxes', async () => {
  const page = await site.browser.newPage({ serviceWorkers: 'block' });
  await page.goto(`${site.origin}/codes/p0401/`);
  const drawn = await page.locator('svg.flow g.flow-box').count();
  expect(await page.locator('.flowlist .flowlist-node').count()).toBe(drawn);
  await page.close();
});

test('an address with a step opens that step', async () => {
  const page = await site.browser.newPage({ serviceWorkers: 'block' });
  await page.goto(`${site.origin}/codes/p0301/#step-2`);
  await page.locator('#step-2 .step-body').waitFor();
  expect(await page.locator('#step-3 > details').getAttribute('open')).toBeNull();
  await page.close();
});

test('everything can be read and opened without JavaScript', async () => {
  const context = await site.browser.newContext({ javaScriptEnabled: false, viewport: { width: 820, height: 1180 } });
  const page = await context.newPage();
  await page.goto(`${site.origin}/codes/p0171/`);
  await page.locator('#step-1 summary').first().click();
  expect(await page.locator('#step-1 .step-body').isVisible()).toBe(true);
  expect(await page.locator('svg.flow').isVisible()).toBe(true);
  expect(await page.locator('.curve svg').first().isVisible()).toBe(true);
  await context.close();
});

test('the keyboard reaches the order: skip link first, each step opens with Enter', async () => {
  const page = await site.browser.newPage({ serviceWorkers: 'block' });
  await page.goto(`${site.origin}/codes/p0301/`);
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the sheet');
  await page.locator('#step-1 summary').first().focus();
  await page.keyboard.press('Enter');
  expect(await page.locator('#step-1 > details').getAttribute('open')).not.toBeNull();
  await page.close();
});
