/**
 * The built site in a real browser, for every test that needs one; the folder of the build is LAMPWISE_OUT, else dist/.
 */
import { existsSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { startServer } from '../scripts/serve/server.ts';
import { launchBrowser } from '../src/kept/browser.ts';

export const builtSite = process.env.LAMPWISE_OUT ?? 'dist';
/** Whether there is a build to look at; tests of pages are skipped without one. */
export const siteIsBuilt = existsSync(`${builtSite}/index.html`) || existsSync(`${builtSite}/job/index.html`);

export interface ServedSite {
  readonly origin: string;
  readonly browser: Browser;
  close(): Promise<void>;
}

/** Serves the build as `npm run serve` does, on a free port, and starts the browser. */
export async function serveSite(folder = builtSite): Promise<ServedSite> {
  const { address, stop } = await startServer(folder, 0);
  const browser = await launchBrowser();
  return {
    origin: address.replace(/\/$/, ''),
    browser,
    close: async () => {
      await browser.close();
      await stop();
    },
  };
}

/** What a page did that it should not: errors in the console, exceptions, requests that leave the origin. */
export interface Watch {
  readonly faults: string[];
}

export function watch(page: Page, origin: string): Watch {
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(`exception: ${error.message}`));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(`console: ${message.text()}`);
  });
  page.on('request', (request) => {
    const address = request.url();
    if (!address.startsWith(origin) && !/^(blob|data):/.test(address)) faults.push(`request: ${address}`);
  });
  return { faults };
}
