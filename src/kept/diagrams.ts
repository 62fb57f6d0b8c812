/** Layouts of flowcharts: Mermaid in the headless browser, all that are missing in one batch, kept by their text. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { availableParallelism } from 'node:os';
import type { Browser, Page } from 'playwright-core';
import type { FlowGeometry } from '../compile/flow-svg.ts';
import { keep, kept, keyOf } from './store.ts';

const require = createRequire(`${process.cwd()}/package.json`);
const mermaidVersion = (): string => (JSON.parse(readFileSync('node_modules/mermaid/package.json', 'utf8')) as { version: string }).version;

/** Raised by hand when this file reads Mermaid's picture in another way. */
const reading = 'geometry 2';
const settings = {
  startOnLoad: false,
  securityLevel: 'strict',
  htmlLabels: false,
  layout: 'dagre',
  look: 'classic',
  theme: 'base',
  deterministicIds: true,
  maxTextSize: 200_000,
  fontFamily: 'Hyperlegible',
  themeVariables: { fontFamily: 'Hyperlegible', fontSize: '15px' },
  flowchart: { htmlLabels: false, wrappingWidth: 190, nodeSpacing: 28, rankSpacing: 44, padding: 12, curve: 'linear' },
} as const;

const key = (text: string): string => keyOf(reading, mermaidVersion(), JSON.stringify(settings), text);

export const keptDiagram = (text: string): FlowGeometry | null => kept<FlowGeometry>('diagrams', key(text));

/** Lays out and keeps every text that is not kept yet. Throws when Mermaid refuses a text: they are all our own. */
export async function layOutDiagrams(texts: readonly string[]): Promise<number> {
  const missing = [...new Set(texts)].filter((text) => !keptDiagram(text)).sort();
  if (missing.length === 0) return 0;
  const { launchBrowser } = await import('./browser.ts');
  const browser = await launchBrowser();
  let next = 0;
  const draw = async () => {
    const page = await drawingPage(browser);
    for (let text = missing[next++]; text !== undefined; text = missing[next++])
      keep('diagrams', key(text), await page.evaluate(measured, { text, settings }));
  };
  try {
    // Each page draws on a processor of its own.
    await Promise.all(Array.from({ length: Math.min(availableParallelism(), missing.length) }, draw));
  } finally {
    await browser.close();
  }
  return missing.length;
}

async function drawingPage(browser: Browser): Promise<Page> {
  // Ligatures and figures are those of one language, whatever the machine speaks.
  const page = await browser.newPage({ locale: 'en' });
  const font = readFileSync(
    require.resolve('@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2'),
  ).toString('base64');
  await page.setContent(
    `<!doctype html><html lang="en"><style>@font-face{font-family:Hyperlegible;font-weight:200 800;src:url(data:font/woff2;base64,${font})}body{font-family:Hyperlegible}</style><p>a</p>`,
  );
  await page.evaluate(() => document.fonts.load('15px Hyperlegible').then(() => undefined));
  await page.addScriptTag({ path: 'node_modules/mermaid/dist/mermaid.min.js' });
  await page.evaluate(measureWordsOnce);
  return page;
}

/** Runs in the browser: Mermaid breaks lines word by word and measures each try; what was measured before is known. */
function measureWordsOnce(): void {
  const prototype = SVGTextContentElement.prototype;
  const measure = prototype.getComputedTextLength;
  const lengths = new Map<string, number>();
  prototype.getComputedTextLength = function () {
    const words = `${this.closest('g[class]')?.getAttribute('class')} ${this.textContent}`;
    const length = lengths.get(words) ?? measure.call(this);
    lengths.set(words, length);
    return length;
  };
}

/** Runs in the browser: draws one text and reads where its boxes, arrows and labels stand. */
async function measured({ text, settings }: { text: string; settings: object }): Promise<FlowGeometry> {
  const { mermaid } = globalThis as unknown as {
    mermaid: { initialize(settings: object): void; render(id: string, text: string): Promise<{ svg: string }> };
  };
  mermaid.initialize(settings);
  const holder = document.createElement('div');
  document.body.append(holder);
  holder.innerHTML = (await mermaid.render('d', text)).svg;
  const svg = holder.querySelector('svg')!;
  svg.style.maxWidth = 'none';
  svg.removeAttribute('width');
  const [left = 0, top = 0, width = 0, height = 0] = svg.getAttribute('viewBox')!.split(' ').map(Number);
  svg.setAttribute('width', String(width));
  svg.setAttribute('height', String(height));
  const origin = svg.getBoundingClientRect();
  const round = (value: number) => Math.round(value * 10) / 10;
  const box = (element: Element) => {
    const rect = element.getBoundingClientRect();
    return {
      x: round(rect.left + rect.width / 2 - origin.left),
      y: round(rect.top + rect.height / 2 - origin.top),
      width: round(rect.width),
      height: round(rect.height),
    };
  };
  // Mermaid leaves entity codes undecoded in SVG text.
  const decode = (row: string) => row.replace(/&?#(\d+);|ﬂ°°(\d+)¶ß/g, (_, a, b) => String.fromCodePoint(Number(a ?? b))).trim();
  const rows = (element: Element) => [...element.querySelectorAll('tspan.row')].map((row) => decode(row.textContent ?? '')).filter(Boolean);
  const nodes = [...svg.querySelectorAll('g.node')]
    .map((node) => ({ index: Number(node.id.match(/-n(\d+)-\d+$/)?.[1]), shape: node.querySelector('.label-container') ?? node, node }))
    .sort((a, b) => a.index - b.index)
    .map(({ shape, node }) => ({ ...box(shape), rows: rows(node) }));
  const shift = (path: string) => {
    let coordinate = 0;
    return path.replace(/-?\d+(?:\.\d+)?(?:e-?\d+)?/g, (number) => String(round(Number(number) - (coordinate++ % 2 === 0 ? left : top))));
  };
  const labels = new Map(
    [...svg.querySelectorAll('g.edgeLabels g.label')].map((label) => [
      label.getAttribute('data-id'),
      { ...box(label.querySelector('text') ?? label), rows: rows(label) },
    ]),
  );
  const edges = [...svg.querySelectorAll('path.flowchart-link')].map((path) => ({
    path: shift(path.getAttribute('d') ?? ''),
    label: labels.get(path.getAttribute('data-id')) ?? { x: 0, y: 0, width: 0, height: 0, rows: [] },
    name: path.getAttribute('data-id') ?? '',
  }));
  holder.remove();
  // Edges come in the order of the text; their names say so too: L_n0_n1_0.
  return { width: round(width), height: round(height), nodes, edges: edges.map(({ path, label }) => ({ path, label })) };
}
