/** A person at the job page whose car has a known fault: does what the page says and answers what that fault would show. */
import type { Page } from 'playwright-core';
import type { Knowledge } from '../../../src/engine/knowledge.ts';

export async function openJob(page: Page, origin: string, fragment = ''): Promise<void> {
  await page.goto(`${origin}/job/${fragment}`);
  await page.waitForSelector('#job[data-ready]');
}

export const knowledgeOf = async (page: Page): Promise<Knowledge> =>
  page.evaluate(async () => (await fetch('/data/job/knowledge.json')).json() as Promise<Knowledge>);

/** The card on screen once the planner has settled: `check ID`, `repair CAUSE`, `hand-over hand-over`, `confirmed CAUSE`, `proof`, `ended HOW`. */
export async function stepOnScreen(page: Page): Promise<string> {
  await page.waitForFunction(() => {
    const card = document.querySelector('[data-step]');
    return card && card.getAttribute('aria-busy') !== 'true' && card.getAttribute('data-step') !== '';
  });
  return (await page.locator('[data-step]').first().getAttribute('data-step'))!;
}

/** The outcome of a check that this cause shows most often. */
export function outcomeUnder(knowledge: Knowledge, check: string, cause: string): string {
  const facts = knowledge.checks[check]!;
  const row = facts.likelihood[cause] ?? facts.otherwise;
  return facts.outcomes[row.indexOf(Math.max(...row))]!.id;
}

export interface Walk {
  readonly steps: readonly string[];
}

/** Answers steps until the page says that the cause is confirmed or found by its repair; at most `most` steps. */
export async function walkToRepair(
  page: Page,
  knowledge: Knowledge,
  cause: string,
  most = 25,
  pressing: 'click' | 'tap' | 'keyboard' = 'click',
): Promise<Walk> {
  const steps: string[] = [];
  const press = async (selector: string) => {
    const target = page.locator(selector).first();
    if (pressing === 'tap') await target.tap();
    else if (pressing === 'keyboard') {
      await target.focus();
      await page.keyboard.press('Enter');
    } else await target.click();
  };
  for (let count = 0; count < most; count++) {
    const step = await stepOnScreen(page);
    steps.push(step);
    const [kind, id] = step.split(' ') as [string, string];
    if (kind === 'confirmed' || (kind === 'repair' && id === cause)) return { steps };
    if (kind === 'check') await press(`[data-outcome="${outcomeUnder(knowledge, id, cause)}"]`);
    else if (kind === 'repair') await press('button:has-text("the fault is still there")');
    else throw new Error(`the walk ends at ${steps.join(', ')}`);
    await page.waitForFunction((last) => document.querySelector('[data-step]')?.getAttribute('data-step') !== last, step);
  }
  throw new Error(`no cause after ${steps.join(', ')}`);
}
