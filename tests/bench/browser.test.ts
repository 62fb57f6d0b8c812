import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sheets } from '../../src/bench/sheets/index.ts';
import { builtSite, type ServedSite, serveSite, watch } from '../browser.ts';

let site: ServedSite;
beforeAll(async () => {
  site = await serveSite();
});
afterAll(() => site.close());

async function open(id: string): Promise<{ page: Page; faults: string[]; close: () => Promise<void> }> {
  const context = await site.browser.newContext({ serviceWorkers: 'block', viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  const { faults } = watch(page, site.origin);
  await page.goto(`${site.origin}/bench/${id}/`);
  await page.waitForSelector('[data-ready]');
  return { page, faults, close: () => context.close() };
}

describe('the bench in a browser', () => {
  test('every calculator wakes, keeps what it was sent with, and logs nothing', { timeout: 120_000 }, async () => {
    for (const { id } of sheets) {
      const sent = await (await fetch(`${site.origin}/bench/${id}/`)).text();
      const { page, faults, close } = await open(id);
      const result = await page.locator('.result').first().textContent();
      expect(result!.length, id).toBeGreaterThan(40);
      // What JavaScript shows at first is what the page says without it.
      const plain = await page.evaluate((html) => {
        const parsed = new DOMParser().parseFromString(html, 'text/html');
        return parsed.querySelector('.result')?.textContent ?? '';
      }, sent);
      expect(result, id).toBe(plain);
      expect(faults, id).toEqual([]);
      await close();
    }
  });

  test('a page of the bench loads at most 17 kB of JavaScript, compressed, what every page loads included', {
    timeout: 120_000,
  }, async () => {
    const table: string[] = [];
    for (const { id } of sheets) {
      const context = await site.browser.newContext({ serviceWorkers: 'block' });
      const page = await context.newPage();
      const scripts = new Set<string>();
      page.on('response', (response) => {
        const { pathname } = new URL(response.url());
        if (pathname.endsWith('.js')) scripts.add(pathname);
      });
      await page.goto(`${site.origin}/bench/${id}/`, { waitUntil: 'networkidle' });
      await page.waitForSelector('[data-ready]');
      await context.close();
      const bytes = [...scripts].reduce((sum, path) => sum + gzipSync(readFileSync(join(builtSite, path))).length, 0);
      table.push(`${id}: ${bytes} bytes in ${scripts.size} files`);
      expect(bytes, id).toBeLessThanOrEqual(16_000);
    }
    console.log(table.join('\n'));
  });

  test('by keyboard alone: a torque is typed and its unit switched', async () => {
    const { page, close } = await open('units');
    const value = page.getByLabel('Value', { exact: true });
    await value.focus();
    await page.keyboard.type('100');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe('Unit of the value');
    // 100 lbf·ft by the definitions: 135.582 N·m.
    expect(await page.locator('.result').textContent()).toContain('135.582');
    await close();
  });

  test('switching a unit carries the number over and leaves the result', async () => {
    const { page, close } = await open('vacuum-and-altitude');
    const before = await page.locator('.result-line').textContent();
    await page.getByLabel('Unit of Height above sea level').selectOption('m');
    expect(await page.getByLabel('Height above sea level', { exact: true }).inputValue()).toBe('1219.2');
    expect(await page.locator('.result-line').textContent()).toBe(before);
    await close();
  });

  test('marking cylinders 1 and 2 turns a companion pair into neighbours', async () => {
    const { page, close } = await open('misfire-pattern');
    expect(await page.locator('.result-line').textContent()).toContain('companion pair');
    await page.getByRole('button', { name: '4', exact: true }).click();
    await page.getByRole('button', { name: '2', exact: true }).click();
    expect(await page.locator('.result-line').textContent()).toContain('neighbours');
    expect(await page.getByRole('img').getAttribute('aria-label')).toContain('misfiring 1, 2');
    await close();
  });

  test('trims go into a job and stand there', async () => {
    const { page, faults, close } = await open('fuel-trim');
    await page.getByRole('button', { name: 'Take these trims into a job' }).click();
    await page.waitForSelector('#job[data-ready]');
    await page.getByText('Freeze frame and fuel trims').click();
    // The job in the address is read after the page is ready.
    const typed = () => page.locator('#job input').evaluateAll((inputs) => inputs.map((input) => (input as HTMLInputElement).value));
    await expect.poll(typed, { timeout: 10_000 }).toEqual(expect.arrayContaining(['20', '4']));
    expect(faults).toEqual([]);
    await close();
  });

  test('without JavaScript the worked tables stand and no dead fields are shown', async () => {
    const context = await site.browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(`${site.origin}/bench/compression/`);
    expect(await page.locator('.worked').first().isVisible()).toBe(true);
    expect(await page.locator('.formula').first().isVisible()).toBe(true);
    expect(await page.locator('.bench').isVisible()).toBe(false);
    await context.close();
  });
});
