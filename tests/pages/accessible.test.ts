import AxeBuilder from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ServedSite, serveSite, watch } from '../browser.ts';
import { allPages } from './built-pages.ts';

let site: ServedSite;
beforeAll(async () => {
  site = await serveSite();
});
afterAll(() => site.close());

/** One page of each kind of route: the first two by name where a route has many pages. */
const sample = (() => {
  const byRoute = Map.groupBy(
    allPages().map(({ path }) => path),
    (path) => path.replace(/^(\/[a-z-]+\/)[^/]+\/$/, '$1*'),
  );
  return [...byRoute.values()].flatMap((paths) => paths.slice(0, 1)).filter((path) => !path.startsWith('/job/'));
})();

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  test('axe finds nothing on any kind of page, the console stays silent, and no request leaves the origin', {
    timeout: 170_000,
  }, async () => {
    const context = await site.browser.newContext({ colorScheme, viewport: { width: 820, height: 1180 }, serviceWorkers: 'block' });
    const page = await context.newPage();
    const seen = watch(page, site.origin);
    const found: string[] = [];
    for (const path of sample) {
      await page.goto(site.origin + path);
      await page.evaluate(() => {
        for (const details of document.querySelectorAll('details')) details.open = true;
      });
      const { violations } = await new AxeBuilder({ page }).analyze();
      found.push(
        ...violations.map((violation) => `${path} ${violation.id}: ${violation.nodes[0]?.html.slice(0, 120)} (${violation.nodes.length})`),
      );
    }
    await context.close();
    expect(sample.length).toBeGreaterThan(20);
    expect(found).toEqual([]);
    expect(seen.faults).toEqual([]);
  });
});
