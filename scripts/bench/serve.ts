/** A built folder on a free port of this machine, and the browser to look at it. */
import type { Browser } from 'playwright-core';
import { launchBrowser } from '../../src/kept/browser.ts';
import { startServer } from '../serve/server.ts';

export async function serveFolder(folder: string): Promise<{ readonly origin: string; readonly browser: Browser; close(): Promise<void> }> {
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
