/**
 * npm run bench -- search [--out FOLDER] [--json]: how fast the field answers on a processor slowed four times, from a letter typed to the
 * frame that shows what it found; and how long the full index takes after a whole question. Slowing does not reach workers.
 */
import { parseArgs } from 'node:util';
import type { Page } from 'playwright-core';
import { figure, quantile, Report } from './figures.ts';
import { serveFolder } from './serve.ts';

const slowing = 4;
const questions = [
  'P0301 P0302',
  'P0171',
  'shakes at a stop light',
  'shaks at stop lite',
  'smells of petrol after filling up',
  'no power on hills',
  'vacuum leak',
  'oxygen sensor heater',
  'whistles when i accelerate',
  'compression gauge',
];

/** Types a question letter by letter; milliseconds from each letter to the frame after its answer. */
const letters = (page: Page, question: string): Promise<number[]> =>
  page.evaluate(async (text) => {
    const input = document.querySelector<HTMLInputElement>('form[data-search] input')!;
    const times: number[] = [];
    for (let length = 1; length <= text.length; length += 1) {
      const start = performance.now();
      input.value = text.slice(0, length);
      input.dispatchEvent(new Event('input', { bubbles: true }));
      await new Promise<void>((done) =>
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => done();
          port2.postMessage(null);
        }),
      );
      times.push(performance.now() - start);
      await new Promise((done) => setTimeout(done, 120));
    }
    return times;
  }, question);

/** Asks a whole question; milliseconds until the full index has added to the list or said that there is nothing. Null: 5 s. */
const whole = (page: Page, question: string): Promise<number | null> =>
  page.evaluate(async (text) => {
    const input = document.querySelector<HTMLInputElement>('form[data-search] input')!;
    const list = document.querySelector('[data-search-results]')!;
    input.value = '';
    input.dispatchEvent(new Event('input', { bubbles: true }));
    const start = performance.now();
    return new Promise<number | null>((done) => {
      const watch = new MutationObserver(() => {
        if (!list.querySelector('[aria-label="In the text"], .search-say')) return;
        watch.disconnect();
        done(performance.now() - start);
      });
      watch.observe(list, { childList: true, subtree: true });
      setTimeout(() => done(null), 5000);
      input.value = text;
      input.dispatchEvent(new Event('input', { bubbles: true }));
    });
  }, question);

const { values } = parseArgs({ options: { out: { type: 'string', default: 'dist' }, json: { type: 'boolean', default: false } } });
const site = await serveFolder(values.out);
try {
  const page = await site.browser.newPage({ viewport: { width: 820, height: 1180 }, serviceWorkers: 'block' });
  await page.goto(`${site.origin}/`);
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowing });
  const touched = Date.now();
  await page.locator('form[data-search] input').focus();
  await page.waitForSelector('form[data-search] [role="combobox"]');
  const ready = Date.now() - touched;
  const quick: number[] = [];
  for (const question of questions) quick.push(...(await letters(page, question)));
  const full: number[] = [];
  for (const question of questions.slice(2)) {
    const time = await whole(page, question);
    if (time !== null) full.push(time);
  }
  const report = new Report(values.json);
  report.table(`Search, processor slowed ${slowing} times`, ['what', 'median', '95 %', 'times', 'goal']);
  const row = (what: string, times: readonly number[], goal: string) =>
    report.row([what, figure(quantile(times, 0.5), 'ms'), figure(quantile(times, 0.95), 'ms'), figure(times.length, ''), goal]);
  row('quick answers, each letter', quick, '<= 100 ms');
  row('full index, whole question', full, '');
  row('field ready, first touch', [ready], '');
  report.end();
} finally {
  await site.close();
}
