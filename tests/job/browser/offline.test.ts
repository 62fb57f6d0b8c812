import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ServedSite, serveSite, siteIsBuilt, watch } from '../../browser.ts';
import { knowledgeOf, openJob, stepOnScreen, walkToRepair } from './walk.ts';

let site: ServedSite;
beforeAll(async () => {
  if (siteIsBuilt) site = await serveSite();
}, 60_000);
afterAll(async () => {
  await site?.close();
});

describe.skipIf(!siteIsBuilt)('without a network', () => {
  test('after the first visit a whole job goes on offline, with every card, through a reload', { timeout: 420_000 }, async () => {
    const context = await site.browser.newContext({ viewport: { width: 820, height: 1180 } });
    const page = await context.newPage();
    await openJob(page, site.origin, '#codes=P0171');
    await stepOnScreen(page);
    await page.waitForFunction(() => document.querySelector('[data-offline]')?.textContent?.includes('works without a network'), null, {
      timeout: 400_000,
    });
    await context.setOffline(true);
    const { faults } = watch(page, site.origin);
    await page.reload();
    await page.waitForSelector('#job[data-ready]');
    const knowledge = await knowledgeOf(page);
    const { steps } = await walkToRepair(page, knowledge, 'vacuum-hose-leak');
    expect(steps.length).toBeGreaterThan(1);
    await page.waitForSelector('.work-steps li');
    await page.reload();
    await page.waitForSelector('#job[data-ready]');
    expect(await stepOnScreen(page)).toBe(steps.at(-1));
    expect(faults).toEqual([]);
    await context.close();
  });
});
