/** A built folder on a free port of this machine, and the browser to look at it. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import sirv from 'sirv';
import { launchBrowser } from '../../src/kept/browser.ts';

export async function serveFolder(folder: string): Promise<{ readonly origin: string; readonly browser: Browser; close(): Promise<void> }> {
  const files = sirv(folder, { dev: true });
  const server = createServer((request, response) =>
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
