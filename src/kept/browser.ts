/** The headless browser that npm brings: for diagrams in a build, and for the tests. */
import chromium from '@sparticuz/chromium';
import { type Browser, chromium as driver } from 'playwright-core';

/** Starts it. The sandbox is off because containers forbid it to root; it opens only our own pages. */
export async function launchBrowser(): Promise<Browser> {
  return driver.launch({
    executablePath: await chromium.executablePath(),
    args: ['--no-sandbox', '--font-render-hinting=none'],
    headless: true,
  });
}
