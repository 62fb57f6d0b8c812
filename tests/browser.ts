/**
 * The built site in a real browser, for every test that needs one. For whoever builds the pages: this was written for the job
 * page's tests and is meant to be shared; the folder of the build is LAMPWISE_OUT, else dist/.
 */
import { existsSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser, Page } from 'playwright-core';
import sirv from 'sirv';
import { launchBrowser } from '../src/kept/browser.ts';

export const builtSite = process.env.LAMPWISE_OUT ?? 'dist';
/** Whether there is a build to look at; tests of pages are skipped without one. */
export const siteIsBuilt = existsSync(`${builtSite}/index.html`) || existsSync(`${builtSite}/job/index.html`);

export interface ServedSite {
  readonly origin: string;
  readonly browser: Browser;
  close(): Promise<void>;
}

/** Serves the build on a free port of this machine and starts the browser. */
export async function serveSite(folder = builtSite): Promise<ServedSite> {
  const files = sirv(folder, { dev: true });
  const server: Server = createServer((request, response) =>
    files(request, response, () => {
      response.statusCode = 404;
      response.end();
    }),
  );
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const browser = await launchBrowser();
  return {
    origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    browser,
    close: async () => {
      await browser.close();
      await new Promise((resolve) => server.close(resolve));
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
