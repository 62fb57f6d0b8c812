import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ServedSite, serveSite, type Watch, watch } from '../browser.ts';

let site: ServedSite;
let page: Page;
let seen: Watch;
beforeAll(async () => {
  site = await serveSite();
  page = await site.browser.newPage({ viewport: { width: 820, height: 1180 }, serviceWorkers: 'block' });
  seen = watch(page, site.origin);
});
afterAll(() => site.close());

const type = async (text: string) => {
  await page.goto(`${site.origin}/`);
  await page.getByLabel('Codes or words').fill(text);
};
const options = () => page.getByRole('option');

describe('the one field', () => {
  test('everyday words lead to the symptom, and the symptom to a cause and a check', async () => {
    await type('shakes at a stop light');
    const symptom = options().filter({ hasText: 'Shakes at a stop light' }).first();
    await symptom.click();
    await page.waitForURL(/\/symptoms\/shakes-at-stop-light\//);
    await page.locator('#likely').locator('xpath=..').getByRole('link').first().click();
    await page.waitForURL(/\/causes\//);
    await page.locator('#checks').locator('xpath=..').getByRole('link').first().click();
    await page.waitForURL(/\/checks\//);
    expect(await page.getByRole('heading', { name: 'What you find' }).isVisible()).toBe(true);
  });

  test.each(['shaks at stop lite', 'lumpy idle', 'vibrates when stopped'])('"%s" finds the shaking idle', async (text) => {
    await type(text);
    await options().filter({ hasText: 'Shakes at a stop light' }).first().waitFor();
  });

  test('two codes lead to one job with both', async () => {
    await type('p0301, P0302');
    const both = options().filter({ hasText: 'one job with P0301 and P0302' });
    await both.waitFor();
    expect(await both.getAttribute('href')).toBe('/job/#codes=P0301,P0302');
  });

  test('a code without a tree is taken apart, and it is said plainly that there is none', async () => {
    await type('P1234');
    await options().filter({ hasText: 'defined by the maker' }).filter({ hasText: 'no tree' }).first().waitFor();
  });

  test('arrows choose, Enter goes there, Escape shuts the list, and / comes back to the field', async () => {
    await type('P0171');
    await options().first().waitFor();
    await page.keyboard.press('ArrowDown');
    expect(await options().first().getAttribute('aria-selected')).toBe('true');
    await page.keyboard.press('Escape');
    expect(await page.locator('[data-search-results]').isHidden()).toBe(true);
    await page.getByLabel('Codes or words').blur();
    await page.keyboard.press('/');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('search-words');
    await page.getByLabel('Codes or words').fill('P0171');
    await options().first().waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/codes\/p0171\//);
  });

  test('words of the text are found through the full index, and can be kept to one kind', async () => {
    await page.goto(`${site.origin}/search/`);
    await page.getByLabel('Codes or words').fill('solvent');
    await page.getByRole('group', { name: 'In the text' }).waitFor();
    await page.locator('select[name="kind"]').selectOption('Caution');
    await page.waitForFunction(() => {
      const links = [...document.querySelectorAll<HTMLAnchorElement>('[data-search-results] a')];
      return links.length > 0 && links.every((link) => link.pathname.startsWith('/cautions/'));
    });
  });

  test('nothing found is said, with what to do', async () => {
    await type('zzqqxxyy');
    await page.getByText('Nothing is found for').waitFor();
  });

  test('no error and no request elsewhere on the way', () => {
    expect(seen.faults).toEqual([]);
  });
});
