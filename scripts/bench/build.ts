/**
 * npm run bench -- build [--pages 100,1000,10000] [--json]: whole builds of generated content, each beside as many plain Astro
 * pages of the same sizes, in the same run and in folders of their own. Processor time is of all threads of a process, so that
 * other work on the machine moves it less than the clock; memory is the most that a process held. Orders and flowcharts are
 * kept between builds, so that they stand in rows of their own.
 */
import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { knowledgeOrExit } from '../content/knowledge.ts';
import { type Cell, figure, Report } from './figures.ts';
import { filesIn } from './files.ts';
import { generatedContent, pagesOfFamily } from './generated-content.ts';

const { values: options } = parseArgs({
  options: { pages: { type: 'string', default: '100,1000,10000' }, json: { type: 'boolean', default: false } },
});
const project = process.cwd();
const { content: shipped } = knowledgeOrExit();

interface Spent {
  readonly seconds: number;
  readonly processorSeconds: number;
  readonly mebibytes: number;
}

/** What every Node process of a command leaves when it ends: its share of the processor and the most memory it held. */
const meter = `
import { appendFileSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';
if (isMainThread) process.on('exit', () => {
  const { user, system } = process.cpuUsage();
  appendFileSync(process.env.BENCH_METER, JSON.stringify({
    command: process.argv[1], processorSeconds: (user + system) / 1e6, mebibytes: process.resourceUsage().maxRSS / 1024,
  }) + '\\n');
});
`;

interface Metered extends Spent {
  readonly out: string;
  /** Of those processes whose script has this name. */
  of(script: string): Omit<Spent, 'seconds'>;
}

/** Runs a command of Node in a folder. Throws with what it said when it fails. */
async function metered(folder: string, given: readonly string[], environment: Readonly<Record<string, string>> = {}): Promise<Metered> {
  const log = join(folder, 'meter.jsonl');
  rmSync(log, { force: true });
  writeFileSync(join(folder, 'meter.mjs'), meter);
  const started = performance.now();
  let said = '';
  const code = await new Promise<number | string | null>((resolve) => {
    const child = spawn(process.execPath, given, {
      cwd: folder,
      env: {
        ...process.env,
        ASTRO_TELEMETRY_DISABLED: '1',
        BENCH_METER: log,
        NODE_OPTIONS: `--import=file://${join(folder, 'meter.mjs')}`,
        ...environment,
      },
    });
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (part: Buffer) => (said += part.toString()));
    child.on('close', (ended, signal) => resolve(ended ?? signal));
  });
  if (code !== 0) throw new Error(`${given.join(' ')} ended with ${code}:\n${said.slice(-3000)}`);
  const seconds = (performance.now() - started) / 1000;
  const processes = readFileSync(log, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as { command?: string } & Omit<Spent, 'seconds'>);
  const summed = (list: typeof processes): Omit<Spent, 'seconds'> => ({
    processorSeconds: list.reduce((sum, one) => sum + one.processorSeconds, 0),
    mebibytes: Math.max(0, ...list.map(({ mebibytes }) => mebibytes)),
  });
  return { seconds, ...summed(processes), out: said, of: (script) => summed(processes.filter(({ command }) => command?.endsWith(script))) };
}

function folderWith(name: string): string {
  const folder = mkdtempSync(join(realpathSync(tmpdir()), name));
  symlinkSync(join(project, 'node_modules'), join(folder, 'node_modules'));
  return folder;
}

function write(folder: string, path: string, text: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}

/** Paths and bytes of all files below a folder. */
const bytesOf = (files: readonly { readonly bytes: number }[]): number => files.reduce((sum, { bytes }) => sum + bytes, 0);

/** As many plain pages, each as large: a layout, and paragraphs of the same words. */
async function plainAstro(
  pages: readonly { readonly path: string; readonly bytes: number }[],
): Promise<Spent & { readonly bytes: number }> {
  const folder = folderWith('lampwise-plain-');
  try {
    const words = [...shipped.causes.values()].map(({ what }) => what);
    write(folder, 'package.json', '{"type":"module"}');
    write(folder, 'astro.config.mjs', `export default { trailingSlash: 'always', devToolbar: { enabled: false } };`);
    write(folder, 'pages.json', JSON.stringify(pages.map(({ path, bytes }) => ({ path: path.replace(/(\/?index)?\.html$/, ''), bytes }))));
    write(folder, 'words.json', JSON.stringify(words));
    write(
      folder,
      'src/layouts/Plain.astro',
      `---\nconst { title } = Astro.props;\n---\n<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{title}</title></head><body><h1>{title}</h1><slot /></body></html>\n`,
    );
    write(
      folder,
      'src/pages/[...path].astro',
      `---
import Plain from '../layouts/Plain.astro';
import pages from '../../pages.json';
import words from '../../words.json';
export const getStaticPaths = () => pages.map(({ path, bytes }) => ({ params: { path: path || undefined }, props: { bytes } }));
const { bytes } = Astro.props;
const paragraphs = [];
for (let held = 150, index = 0; held < bytes; index++) {
  const text = words[index % words.length].slice(0, Math.max(1, bytes - held - 7));
  paragraphs.push(text);
  held += text.length + 7;
}
---
<Plain title={Astro.url.pathname}>{paragraphs.map((text) => <p>{text}</p>)}</Plain>
`,
    );
    const spent = await metered(folder, ['node_modules/astro/bin/astro.mjs', 'build', '--silent']);
    return { ...spent, bytes: bytesOf(filesIn(join(folder, 'dist')).filter(({ path }) => path.endsWith('.html'))) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** `Pages built (11.2 s)` -> 11.2 */
const stage = (out: string, name: string): number =>
  Number(out.match(new RegExp(`^${name}.*\\((\\d+\\.\\d) s\\)$`, 'm'))?.[1] ?? Number.NaN);

interface Row {
  readonly wanted: number;
  readonly pages: number;
  readonly firstSeconds: number;
  readonly ordersSeconds: number;
  readonly chartsSeconds: number;
  readonly again: Spent;
  readonly changed: Spent & { readonly solved: number };
  readonly astro: Omit<Spent, 'seconds'> & { readonly seconds: number };
  readonly dataSeconds: number;
  readonly plain: Spent;
  readonly html: number;
  readonly plainHtml: number;
  readonly output: number;
  readonly indexSeconds: number;
  readonly indexBytes: number;
  readonly workerSeconds: number;
  readonly compressSeconds: number;
}

async function measure(wanted: number): Promise<Row> {
  const folder = folderWith('lampwise-bench-');
  try {
    for (const part of ['src', 'scripts', 'astro.config.mjs', 'package.json', 'tsconfig.json'])
      cpSync(join(project, part), join(folder, part), { recursive: true });
    for (const { path, text } of generatedContent(Math.max(1, Math.round(wanted / pagesOfFamily)), shipped)) write(folder, path, text);
    const build = ['scripts/build.ts', '--out', 'site'];
    const first = await metered(folder, build);
    const again = await metered(folder, build);
    const cause = 'content/causes/cause-n0-n0.yaml';
    const text = readFileSync(join(folder, cause), 'utf8');
    writeFileSync(join(folder, cause), text.replace(/"attendedMinutes": [\d.]+/, '"attendedMinutes": 31.5'));
    const changed = await metered(folder, build);
    const files = filesIn(join(folder, 'site'));
    const pages = files.filter(({ path }) => path.endsWith('.html'));
    const plain = await plainAstro(pages);
    return {
      wanted,
      pages: pages.length,
      firstSeconds: first.seconds,
      ordersSeconds: stage(first.out, 'Orders'),
      chartsSeconds: stage(first.out, 'Flowcharts'),
      again,
      changed: { ...changed, solved: Number(changed.out.match(/(\d+) solved now/)?.[1]) },
      astro: { ...again.of('astro.mjs'), seconds: stage(again.out, 'Pages built') },
      dataSeconds: stage(again.out, 'Data files'),
      plain,
      html: bytesOf(pages),
      plainHtml: plain.bytes,
      output: bytesOf(files),
      indexSeconds: stage(again.out, 'Search index'),
      indexBytes: bytesOf(files.filter(({ path }) => path.startsWith('pagefind/') && !/\.(br|gz)$/.test(path))),
      workerSeconds: stage(again.out, 'Offline copy'),
      compressSeconds: stage(again.out, 'Compressed'),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const rows: Row[] = [];
for (const wanted of options.pages.split(',').map(Number)) {
  if (!Number.isInteger(wanted) || wanted < 1) {
    console.error(`--pages ${options.pages} is no list of numbers of pages, such as 100,1000.`);
    process.exit(2);
  }
  rows.push(await measure(wanted));
}

const seconds = (value: number) => figure(value, 's', 1);
const mebibytes = (value: number) => figure(value, 'MiB');
const megabytes = (value: number) => figure(value / 1e6, 'MB', 1);
const times = (value: number) => figure(value, 'x', 2);
const lines: readonly (readonly [string, (row: Row) => Cell])[] = [
  ['pages in the site (with those every site has)', ({ pages }) => figure(pages, '')],
  ['first build, by the clock', ({ firstSeconds }) => seconds(firstSeconds)],
  ['  of that: orders', ({ ordersSeconds }) => seconds(ordersSeconds)],
  ['  of that: flowcharts', ({ chartsSeconds }) => seconds(chartsSeconds)],
  ['build again, by the clock', ({ again }) => seconds(again.seconds)],
  ['build again, processor', ({ again }) => seconds(again.processorSeconds)],
  ['  pages by Astro, by the clock', ({ astro }) => seconds(astro.seconds)],
  ['  pages by Astro, processor', ({ astro }) => seconds(astro.processorSeconds)],
  ['  data files, by the clock', ({ dataSeconds }) => seconds(dataSeconds)],
  ['  search index, by the clock', ({ indexSeconds }) => seconds(indexSeconds)],
  ['  offline copy, by the clock', ({ workerSeconds }) => seconds(workerSeconds)],
  ['  compression, by the clock', ({ compressSeconds }) => seconds(compressSeconds)],
  ['after one cause changed, by the clock', ({ changed }) => seconds(changed.seconds)],
  ['  orders solved anew for it', ({ changed }) => figure(changed.solved, '')],
  ['most memory of one process (goal 2,048)', ({ again }) => mebibytes(again.mebibytes)],
  ['plain Astro, by the clock', ({ plain }) => seconds(plain.seconds)],
  ['plain Astro, processor', ({ plain }) => seconds(plain.processorSeconds)],
  ['plain Astro, memory', ({ plain }) => mebibytes(plain.mebibytes)],
  ['HTML', ({ html }) => megabytes(html)],
  ['HTML of plain Astro', ({ plainHtml }) => megabytes(plainHtml)],
  ['all output, with compressed twins', ({ output }) => megabytes(output)],
  ['search index', ({ indexBytes }) => megabytes(indexBytes)],
  [
    'pages and data / plain Astro, CPU (goal 1.5)',
    ({ astro, dataSeconds, plain }) => times((astro.processorSeconds + dataSeconds) / plain.processorSeconds),
  ],
  ['whole build again / plain Astro, CPU', ({ again, plain }) => times(again.processorSeconds / plain.processorSeconds)],
];
const report = new Report(options.json);
report.table('Builds of generated content, by pages wanted', ['what', ...rows.map(({ wanted }) => String(wanted))]);
for (const [what, show] of lines) report.row([what, ...rows.map(show)]);
const growths = rows.slice(1).map((row, i) => ({ from: rows[i]!, to: row }));
if (growths.length > 0) {
  report.table('Growth (goal from 1,000 to 10,000 pages: 11 x at most)', [
    ...['from, to', 'pages', 'first build', 'again, CPU', 'plain Astro, CPU'],
  ]);
}
for (const { from, to } of growths) {
  report.row([
    `${from.pages} to ${to.pages}`,
    times(to.pages / from.pages),
    times(to.firstSeconds / from.firstSeconds),
    times(to.again.processorSeconds / from.again.processorSeconds),
    times(to.plain.processorSeconds / from.plain.processorSeconds),
  ]);
}
report.end();
