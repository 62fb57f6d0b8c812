/**
 * npm run bench [-- NAME [options]] [--json]: prints the tables of scripts/bench/NAME.ts; without a name those of all of them, which
 * takes most of an hour. Pages, search and job look at a site that is built. With --json everything comes as one document.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const benches = ['pages', 'search', 'job', 'engine', 'looseness', 'build'];
const ofTheSite = ['pages', 'search', 'job'];

const [first, ...rest] = process.argv.slice(2);
const name = first?.startsWith('-') ? undefined : first;
if (name !== undefined && !benches.includes(name)) {
  console.error(`No such bench: ${name}. There are: ${benches.join(', ')}. Use: npm run bench -- ${benches[0]}, or npm run bench for all.`);
  process.exit(2);
}
const options = name === undefined ? process.argv.slice(2) : rest;
const json = options.includes('--json');
if (name === undefined && options.some((option) => option !== '--json')) {
  console.error(`${options.find((option) => option !== '--json')} is an option of one bench: npm run bench -- NAME ${options.join(' ')}.`);
  process.exit(2);
}
const wanted = name === undefined ? benches : [name];
/** Of several benches the documents are put together; of one its own is passed on. */
const together = json && name === undefined;
if (wanted.some((bench) => ofTheSite.includes(bench)) && !options.includes('--out') && !existsSync('dist/index.html')) {
  console.error('There is no site in dist/ to measure. Build it first: npm run build.');
  process.exit(1);
}

const documents: Record<string, unknown> = {};
for (const bench of wanted) {
  if (name === undefined) console.error(`\n${bench}`);
  const run = spawnSync(process.execPath, [`scripts/bench/${bench}.ts`, ...options], {
    stdio: ['inherit', together ? 'pipe' : 'inherit', 'inherit'],
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (run.status !== 0) process.exit(run.status ?? 1);
  if (together) documents[bench] = JSON.parse(run.stdout);
}
if (together) console.log(JSON.stringify(documents, null, 2));
