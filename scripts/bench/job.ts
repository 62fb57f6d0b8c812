/**
 * npm run bench -- job [--out FOLDER] [--json]: what the job page weighs and how fast it answers, on a processor slowed four times.
 * Belief, re-rank and re-plan run on the main thread of a blank page, because slowing does not reach workers; then whole
 * answers are timed on the real page, from the press to the next frame with the moved causes.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import type { Case } from '../../src/engine/case.ts';
import type { Knowledge } from '../../src/engine/knowledge.ts';
import { type Cell, figure, quantile, Report } from './figures.ts';
import { serveFolder } from './serve.ts';

const slowing = 4;
const walks = 12;
const stepsOfWalk = 5;

interface Timings {
  readonly belief: number[];
  readonly rerank: number[];
  readonly replan: number[];
}

const timesRow = (what: string, values: readonly number[], goal: string): readonly Cell[] => [
  what,
  figure(quantile(values, 0.5), 'ms', 1),
  figure(quantile(values, 0.95), 'ms', 1),
  figure(values.length, ''),
  goal,
];

async function slowed(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowing });
}

/** The family with most causes, and its code that leaves most of them. */
function largest(knowledge: Knowledge): { readonly family: string; readonly code: string } {
  const family = Object.values(knowledge.families).reduce((a, b) =>
    Object.keys(b.shares).length > Object.keys(a.shares).length ? b : a,
  ).id;
  return { family, code: Object.values(knowledge.codes).find((code) => code.family === family)!.id };
}

async function pureTimes(browser: Browser, knowledge: Knowledge, code: string): Promise<Timings> {
  const { outputFiles } = await build({
    stdin: {
      contents: `export { belief } from './src/engine/belief/index.ts'; export { rankNow, planNow } from './src/job/planner/rank.ts';`,
      resolveDir: '.',
    },
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    globalName: 'job',
  });
  const page = await browser.newPage();
  await page.addScriptTag({ content: outputFiles[0]!.text });
  await slowed(page);
  const times = await page.evaluate(
    ({ knowledge, code, walks, steps }) => {
      const job = (
        globalThis as unknown as { job: typeof import('../../src/job/planner/rank.ts') & typeof import('../../src/engine/belief/index.ts') }
      ).job;
      const found: { belief: number[]; rerank: number[]; replan: number[] } = { belief: [], rerank: [], replan: [] };
      const timed = <T>(into: number[], work: () => T): T => {
        const start = performance.now();
        const result = work();
        into.push(performance.now() - start);
        return result;
      };
      for (let walk = 0; walk < walks; walk++) {
        let situation: Case = { codes: [code] };
        for (let step = 0; step < steps; step++) {
          const now = situation;
          timed(found.belief, () => job.belief(now, knowledge));
          const { formulation, proposals } = timed(found.rerank, () => job.rankNow(now, knowledge));
          const begun = performance.now();
          timed(found.replan, () => job.planNow(formulation, knowledge, () => performance.now() - begun > 20));
          // Other steps and results on each walk, the same ones in every run.
          const checks = proposals.filter(({ kind }) => kind === 'check');
          const check = checks[(walk + step) % Math.max(1, checks.length)];
          if (!check) break;
          const outcomes = knowledge.checks[check.id]!.outcomes;
          const outcome = outcomes[(walk * 7 + step * 3) % outcomes.length]!.id;
          situation = { ...situation, results: [...(situation.results ?? []), { check: check.id, outcome }] };
        }
      }
      return found;
    },
    { knowledge, code, walks, steps: stepsOfWalk },
  );
  await page.close();
  return times;
}

/** From pressing an answer to the second frame after it: the moved causes are on screen; and to the next card. */
async function answerTimes(
  browser: Browser,
  origin: string,
  code: string,
): Promise<{ readonly shown: number[]; readonly nextCard: number[] }> {
  const shown: number[] = [];
  const nextCard: number[] = [];
  for (let walk = 0; walk < 4; walk++) {
    const context = await browser.newContext({ viewport: { width: 820, height: 1180 } });
    const page = await context.newPage();
    await page.goto(`${origin}/job/#codes=${code}`);
    await page.waitForSelector('[data-outcome]');
    await slowed(page);
    for (let step = 0; step < stepsOfWalk; step++) {
      await page.waitForFunction(() => document.querySelector('[data-step]')?.getAttribute('aria-busy') !== 'true');
      if ((await page.locator('[data-outcome]').count()) === 0) break;
      const [frame, card] = await page.evaluate(
        (number) =>
          new Promise<[number, number]>((resolve) => {
            const buttons = document.querySelectorAll<HTMLElement>('[data-outcome]');
            const before = document.querySelector('[data-step]')!.getAttribute('data-step');
            const start = performance.now();
            buttons[number % buttons.length]!.click();
            let first = 0;
            const look = () => {
              first ||= performance.now() - start;
              const changed = document.querySelector('[data-step]')?.getAttribute('data-step') !== before;
              if (changed || performance.now() - start > 10_000) resolve([first, performance.now() - start]);
              else requestAnimationFrame(look);
            };
            requestAnimationFrame(() => requestAnimationFrame(look));
          }),
        walk + step,
      );
      shown.push(frame);
      nextCard.push(card);
    }
    await context.close();
  }
  return { shown, nextCard };
}

async function weight(browser: Browser, origin: string, folder: string): Promise<readonly (readonly Cell[])[]> {
  const page = await (await browser.newContext({ serviceWorkers: 'block' })).newPage();
  const paths = new Set<string>();
  page.on('request', (request) => paths.add(new URL(request.url()).pathname));
  await page.goto(`${origin}/job/#codes=P0171`);
  await page.waitForSelector('[data-outcome]');
  await page.waitForLoadState('networkidle');
  const files = [...paths].filter((path) => !path.endsWith('/')).map((path) => ({ path, bytes: readFileSync(`${folder}${path}`) }));
  const sum = (kind: RegExp, pack: (bytes: Buffer) => number) =>
    files.filter(({ path }) => kind.test(path)).reduce((total, { bytes }) => total + pack(bytes), 0);
  const cells = (what: string, kind: RegExp, goal: string): readonly Cell[] => [
    what,
    figure(sum(kind, (bytes) => gzipSync(bytes, { level: 9 }).length) / 1000, 'kB', 1),
    figure(sum(kind, (bytes) => brotliCompressSync(bytes).length) / 1000, 'kB', 1),
    figure(files.filter(({ path }) => kind.test(path)).length, ''),
    goal,
  ];
  await page.context().close();
  return [cells('JavaScript, worker included', /\.m?js$/, '<= 60 kB'), cells('data', /\.json$/, ''), cells('styles', /\.css$/, '')];
}

const { values } = parseArgs({
  options: { out: { type: 'string', default: process.env.LAMPWISE_OUT ?? 'dist' }, json: { type: 'boolean', default: false } },
});
const report = new Report(values.json);
const { origin, browser, close } = await serveFolder(values.out);
try {
  const knowledge = JSON.parse(readFileSync(`${values.out}/data/job/knowledge.json`, 'utf8')) as Knowledge;
  const { family, code } = largest(knowledge);
  report.table(
    `Job page, first load: largest family ${family} (${Object.keys(knowledge.families[family]!.shares).length} causes), code ${code}`,
    [...['what', 'gzip', 'brotli', 'files', 'goal']],
  );
  for (const cells of await weight(browser, origin, values.out)) report.row(cells);
  const pure = await pureTimes(browser, knowledge, code);
  const page = await answerTimes(browser, origin, code);
  report.table(`Job page, processor slowed ${slowing} times`, ['what', 'median', '95th percentile', 'times', 'goal']);
  report.row(timesRow('belief', pure.belief, '<= 16 ms'));
  report.row(timesRow('re-rank', pure.rerank, '<= 16 ms'));
  report.row(timesRow('re-plan', pure.replan, '<= 100 ms'));
  report.row(timesRow('answer to moved causes on screen', page.shown, ''));
  report.row(timesRow('answer to next card (worker not slowed)', page.nextCard, ''));
  report.end();
} finally {
  await close();
}
