import { afterAll, beforeAll, expect, test } from 'vitest';
import { type ServedSite, serveSite } from '../browser.ts';

let site: ServedSite;
beforeAll(async () => {
  site = await serveSite();
});
afterAll(() => site.close());

test('after one visit the whole site works without a network, and says so', { timeout: 420_000 }, async () => {
  const context = await site.browser.newContext();
  const page = await context.newPage();
  await page.goto(`${site.origin}/`);
  await page.getByText('works without a network').waitFor({ timeout: 400_000 });
  await context.setOffline(true);
  for (const path of ['/codes/p0420/', '/checks/', '/symptoms/shakes-at-stop-light/', '/job/']) {
    await page.goto(site.origin + path);
    expect(await page.locator('h1').first().isVisible(), path).toBe(true);
  }
  await page.goto(`${site.origin}/search/`);
  await page.getByLabel('Codes or words').fill('solvent');
  await page.getByRole('group', { name: 'In the text' }).waitFor();
  await page.goto(`${site.origin}/no/such/page/`);
  expect(await page.getByRole('heading', { name: 'There is no page at this address' }).isVisible()).toBe(true);
  await context.close();
});
