/**
 * A site built from content in which every text that a stranger may write ends in something hostile. The pages are opened
 * with the Content-Security-Policy switched off, so that escaping alone has to hold; then with it, as a reader has them.
 * What the loader refuses before it comes to this (direction marks, control characters, reserved keys, aliases, ids that are
 * paths, links in the folder) is in tests/model and tests/scripts/check.test.ts.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fragmentOf } from '../../src/job/keep/link.ts';
import { exportText } from '../../src/job/saved/saved.ts';
import { newJob, reduce } from '../../src/job/state.ts';
import { type ServedSite, serveSite, type Watch, watch } from '../browser.ts';
import { openJob, stepOnScreen } from '../job/browser/walk.ts';
import { allPages } from '../pages/built-pages.ts';
import { hostile, hostileProject } from './hostile-site.ts';
import { smallContent } from './small-site.ts';

const { texts } = hostile;
const root = join(hostileProject, 'site');
let site: ServedSite;
/** Addresses of pages that hold any of the texts. */
let paths: readonly string[];
beforeAll(async () => {
  paths = allPages(root)
    .filter(({ html }) => /ran\(\d|W{90}/.test(html))
    .map(({ path }) => path);
  site = await serveSite(root);
});
afterAll(() => site?.close());

/** What the texts try: to call `ran`, to put elements and handlers on the page, to lead somewhere else. */
interface Found {
  readonly ran: readonly unknown[];
  readonly elements: readonly string[];
  readonly handlers: readonly string[];
  readonly links: readonly string[];
  /** All text of the page and of its attributes, without scripts. */
  readonly text: string;
}

async function hostilePage(context: BrowserContext): Promise<{ readonly page: Page; readonly seen: Watch }> {
  const page = await context.newPage();
  await page.addInitScript(() => {
    const all: unknown[] = [];
    Object.assign(globalThis, { happened: all, ran: (what: unknown) => all.push(what) });
    customElements.define(
      'x-ran',
      class extends HTMLElement {
        connectedCallback() {
          all.push('x-ran');
        }
      },
    );
  });
  page.on('dialog', (dialog) => void dialog.dismiss());
  return { page, seen: watch(page, site.origin) };
}

const look = (page: Page): Promise<Found> =>
  page.evaluate(() => {
    const every = [...document.querySelectorAll('*')];
    const named = (element: Element) => element.outerHTML.slice(0, 120);
    const addresses = every.flatMap((element) =>
      ['href', 'src', 'action', 'formaction', 'data', 'srcdoc', 'xlink:href'].flatMap((name) => element.getAttribute(name) ?? []),
    );
    const copy = document.documentElement.cloneNode(true) as HTMLElement;
    for (const script of copy.querySelectorAll('script, style')) script.remove();
    const attributes = every.flatMap((element) => [...element.attributes].map(({ value }) => value));
    const values = every.flatMap((element) =>
      element instanceof HTMLInputElement || element instanceof HTMLTextAreaElement ? [element.value] : [],
    );
    return {
      ran: (globalThis as unknown as { happened: unknown[] }).happened,
      elements: [
        ...document.querySelectorAll(
          'x-ran, iframe, object, embed, base, math, template, mglyph, meta[http-equiv="refresh" i], img[src="x"]',
        ),
      ].map(named),
      handlers: every.filter((element) => [...element.attributes].some(({ name }) => /^on|^autofocus$|^srcdoc$/.test(name))).map(named),
      links: addresses.filter((address) => !/^https?:$/.test(new URL(address, location.href).protocol)),
      text: [copy.textContent ?? '', ...attributes, ...values].join('\n').replace(/\s+/g, ' '),
    };
  });

const harmless = ({ ran, elements, handlers, links }: Found, where: string) =>
  expect({ ran, elements, handlers, links }, where).toEqual({ ran: [], elements: [], handlers: [], links: [] });

const open = (bypassCSP: boolean) => site.browser.newContext({ bypassCSP, viewport: { width: 390, height: 844 }, serviceWorkers: 'block' });

describe('texts of strangers', () => {
  test('there are many, of every kind of file', () => {
    const kinds = new Set(texts.map(({ at }) => at.split('/')[1]));
    console.log(`hostile content: ${texts.length} texts in ${kinds.size} kinds of files, on ${paths.length} pages`);
    expect(texts.length).toBeGreaterThan(110);
    expect(kinds.size).toBe(new Set(smallContent.map(({ path }) => path.split('/')[1])).size);
    expect(paths.length).toBeGreaterThan(40);
  });

  test('do nothing on any page, even without the policy, and are shown as they were written', { timeout: 180_000 }, async () => {
    const context = await open(true);
    const { page, seen } = await hostilePage(context);
    const shown = new Set<number>();
    const wide: string[] = [];
    for (const path of paths) {
      await page.goto(site.origin + path);
      await page.evaluate(() => {
        for (const details of document.querySelectorAll('details')) details.open = true;
      });
      const found = await look(page);
      harmless(found, path);
      for (const { number, text } of texts) if (found.text.includes(text)) shown.add(number);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      if (over > 0) wide.push(`${path} by ${over}`);
    }
    await context.close();
    expect(seen.faults).toEqual([]);
    const unseen = texts.filter(({ number }) => !shown.has(number));
    expect(unseen.map(({ at }) => at)).toEqual([]);
    expect(wide, 'pages that run off a phone').toEqual([]);
  });

  test('do nothing under the policy either, and nothing on the pages breaks it', { timeout: 120_000 }, async () => {
    const context = await open(false);
    const { page, seen } = await hostilePage(context);
    const kinds = Map.groupBy(paths, (path) => path.split('/')[1]);
    for (const path of [...kinds.values()].flatMap((list) => list.slice(0, 2))) {
      await page.goto(site.origin + path);
      harmless(await look(page), path);
    }
    await context.close();
    expect(seen.faults).toEqual([]);
  });

  test('are labels and nothing else in the flowchart', async () => {
    const context = await open(true);
    const { page } = await hostilePage(context);
    await page.goto(`${site.origin}/codes/p0301/`);
    const boxes = await page
      .locator('svg.flow g.flow-box')
      .evaluateAll((groups) => groups.map((group) => [...group.querySelectorAll('tspan')].map((row) => row.textContent).join(' ')));
    const beside = await page.locator('.flowlist .flowlist-node').count();
    await context.close();
    expect(boxes).toHaveLength(beside);
    expect(boxes.length).toBeGreaterThan(2);
    // Mermaid breaks long words, so rows are joined without their spaces.
    const drawn = boxes.map((box) => box.replace(/\s+/g, ''));
    const titles = texts.filter(({ at }) => /^content\/(checks\/[^:]+: title|causes\/.+repair\.title)$/.test(at));
    for (const { text } of titles) {
      const start = text.slice(0, 80).replace(/\s+/g, '');
      expect(
        drawn.some((box) => box.startsWith(start.slice(0, 60))),
        `${text} in ${drawn.join(' , ')}`,
      ).toBe(true);
    }
  });

  test('are found by the search and shown as text in its list', async () => {
    const context = await open(true);
    const { page, seen } = await hostilePage(context);
    await page.goto(`${site.origin}/search/`);
    for (const [words, at] of [
      ['shakes at a stop light', 'content/symptoms/shakes-at-idle.yaml: title'],
      ['worn spark plugs', 'content/causes/worn-plugs.yaml: title'],
      ['vibrates', 'content/symptoms/shakes-at-idle.yaml: also.0'],
      ['pliers', 'content/tools/pliers.yaml: title'],
    ] as const) {
      await page.getByLabel('Codes or words').fill(words);
      const { text } = texts.find((one) => one.at === at)!;
      await page.getByRole('option').filter({ hasText: text }).first().waitFor();
      harmless(await look(page), words);
    }
    // The text of pages comes out of the full index with marks about the words: nothing else of it may become markup.
    await page.getByLabel('Codes or words').fill('electrode');
    await page.getByRole('group', { name: 'In the text' }).locator('mark').first().waitFor();
    harmless(await look(page), 'excerpts');
    await context.close();
    expect(seen.faults).toEqual([]);
  });

  test('do nothing in a job, from its first question to its sheet on paper', { timeout: 90_000 }, async () => {
    const context = await open(true);
    const { page, seen } = await hostilePage(context);
    await openJob(page, site.origin, '#codes=P0301');
    const asked: string[] = [];
    const steps: string[] = [];
    for (let count = 0; count < 12; count++) {
      const step = await stepOnScreen(page);
      steps.push(step);
      await page.evaluate(() => {
        for (const details of document.querySelectorAll('details')) details.open = true;
      });
      const found = await look(page);
      harmless(found, step);
      asked.push(found.text);
      const next = page.locator('[data-outcome]').or(page.locator('button:has-text("the fault is still there")')).first();
      if ((await next.count()) === 0) break;
      await next.click();
      await page.waitForFunction((last) => document.querySelector('[data-step]')?.getAttribute('data-step') !== last, step);
    }
    const all = asked.join('\n');
    expect(steps.length).toBeGreaterThan(2);
    for (const at of [
      'content/traits/ignition.yaml: values.0.title',
      'content/symptoms/shakes-at-idle.yaml: title',
      'content/recent-work/air-filter.yaml: title',
      'content/checks/look-at-hoses.yaml: title',
      'content/checks/look-at-hoses.yaml: steps.0',
      'content/causes/worn-plugs.yaml: title',
    ])
      expect(all, at).toContain(texts.find((one) => one.at === at)!.text);
    await page.emulateMedia({ media: 'print' });
    harmless(await look(page), 'on paper');
    await context.close();
    expect(seen.faults).toEqual([]);
  });
});

describe('jobs of strangers', () => {
  const name = '<img src=x onerror=ran(1)><x-ran></x-ran>{{ran(2)}}';

  test.each([
    '#codes=P0301,<img/src=x/onerror=ran(1)>',
    '#shared=<x-ran>',
    '#codes=%3Cx-ran%3E',
    '#shared=AAAA',
    '#"><x-ran>',
    '#__proto__=1',
  ])('an address that ends in %s does nothing', async (fragment) => {
    const context = await open(true);
    const { page, seen } = await hostilePage(context);
    await openJob(page, site.origin, fragment);
    harmless(await look(page), fragment);
    await context.close();
    expect(seen.faults).toEqual([]);
  });

  test.each(['yes', 'tostring', 'valueof', 'constructor'])(
    'a shared job with a hostile name, and with the id "%s" that no vocabulary has, is text',
    async (id) => {
      const job = (
        [
          { type: 'name', name },
          { type: 'codes', text: `P0301 ${name}` },
          { type: 'trait', trait: id, value: id },
          { type: 'trait', trait: 'ignition', value: id },
          { type: 'recent-work', id, on: true },
          { type: 'symptom', id, presence: 'present' },
          { type: 'condition', id, presence: 'present' },
          { type: 'replaced', part: id, when: 'long-before' },
          { type: 'answer', at: 1, note: name, answer: { kind: 'result', check: id, outcome: id, reading: null, before: false } },
          { type: 'answer', at: 2, note: name, answer: { kind: 'cannot', action: id } },
          { type: 'answer', at: 3, note: name, answer: { kind: 'repair', cause: id, outcome: 'still-there' } },
        ] as const
      ).reduce(reduce, newJob('a-job', 1_700_000_000_000));
      const link = await fragmentOf(exportText(job, 'of-elsewhere'));
      if (!link.ok) throw new Error(link.says);
      const context = await open(true);
      const { page, seen } = await hostilePage(context);
      await openJob(page, site.origin, link.fragment);
      const button = page.getByRole('button', { name: /open|take|keep|use/i }).first();
      if ((await button.count()) > 0) await button.click();
      expect(await stepOnScreen(page)).not.toBe('');
      const found = await look(page);
      harmless(found, id);
      expect(found.text).toContain(name);
      await context.close();
      expect(seen.faults).toEqual([]);
    },
  );
});

test('the small list and the data files hold the texts as JSON and nothing more', () => {
  const quick = JSON.parse(readFileSync(join(root, 'data/quick.json'), 'utf8')) as unknown;
  expect(JSON.stringify(quick)).toContain('ran(');
  const knowledge = readFileSync(join(root, 'data/job/knowledge.json'), 'utf8');
  expect(Object.keys((JSON.parse(knowledge) as { causes: object }).causes)).toEqual(['split-hose', 'worn-plugs']);
});
