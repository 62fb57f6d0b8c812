/** The whole build, stage by stage. Works beside the last good site and takes its place only when everything is there. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cp } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { type Catalogue, catalogueOf } from '../../src/compile/catalogue.ts';
import { codeFormulation } from '../../src/compile/code-page.ts';
import { type DataFile, dataFiles } from '../../src/data-files.ts';
import { codeOrders } from '../../src/kept/code-orders.ts';
import { keepContent } from '../../src/kept/content.ts';
import { layOutDiagrams } from '../../src/kept/diagrams.ts';
import { keptFolder } from '../../src/kept/store.ts';
import { knowledgeOrExit } from '../content/knowledge.ts';
import { compressFiles } from './compress.ts';
import { findOrders } from './orders.ts';
import { writeSearchIndex } from './search-index.ts';
import { writeServiceWorker } from './service-worker.ts';

/** Builds the site into `folder`. Exits with code 1 and a report when the content or a stage is at fault. */
export async function buildSite(folder: string): Promise<void> {
  const started = performance.now();
  let stage = started;
  const say = (text: string) => {
    const now = performance.now();
    console.log(`${text} (${((now - stage) / 1000).toFixed(1)} s)`);
    stage = now;
  };

  bringBack(folder);
  const { content, knowledge } = knowledgeOrExit();
  say(`Content checked: ${content.families.size} families, ${content.causes.size} causes, ${content.checks.size} checks`);
  sweep(folder);
  const building = `${folder}.building-${process.pid}`;
  // Before the long work, so that a place that nothing can be written to is not found out after it.
  mkdirSync(building, { recursive: true });
  // Astro moves files while it works, which it can on one disk alone.
  const place = statSync(building).dev === statSync('.').dev ? building : `${keptFolder}/building-${process.pid}`;
  try {
    await buildInto(place, catalogueOf(content, knowledge), say);
    if (place !== building) await cp(place, building, { recursive: true });
  } catch (error) {
    rmSync(building, { recursive: true, force: true });
    throw error;
  } finally {
    if (place !== building) rmSync(place, { recursive: true, force: true });
  }
  replace(building, folder);
  console.log(`Built into ${folder} in ${((performance.now() - started) / 1000).toFixed(0)} s`);
}

/** All stages, into a folder of their own. `say` is told when each is done. Throws when a stage fails. */
async function buildInto(building: string, catalogue: Catalogue, say: (text: string) => void): Promise<void> {
  const { knowledge } = catalogue;
  const codes = Object.keys(knowledge.codes);
  const formulations = new Map(codes.map((code) => [code, codeFormulation(catalogue, code)]));
  const orders = await findOrders([...formulations.values()], knowledge);
  say(`Orders: ${codes.length} codes, ${orders.distinct} distinct problems, ${orders.solved} solved now`);

  say(`Flowcharts: ${orders.flowcharts.length}, ${await layOutDiagrams(orders.flowcharts)} laid out now`);

  keepContent(catalogue);
  const astro = spawnSync(process.execPath, ['node_modules/astro/bin/astro.mjs', 'build', '--silent'], {
    stdio: ['ignore', 'ignore', 'inherit'],
    // Whatever the shell or a test runner says: the finished site is a production build, or it would have no offline copy.
    env: {
      ...process.env,
      LAMPWISE_OUT: building,
      LAMPWISE_CONTENT: knowledge.hash,
      ASTRO_TELEMETRY_DISABLED: '1',
      NODE_ENV: 'production',
    },
  });
  if (astro.status !== 0) throw new Error('The pages could not be made: see above.');
  say('Pages built');

  say(
    `Data files: ${writeDataFiles(
      building,
      dataFiles(
        catalogue,
        codeOrders((code) => formulations.get(code)!),
      ),
    )}`,
  );

  const indexed = await writeSearchIndex(building, (path, bytes) => {
    const target = join(building, 'pagefind', path);
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, bytes);
  });
  say(`Search index: ${indexed} pages`);

  const kept = await writeServiceWorker(building);
  say(`Offline copy: ${kept.count} files, ${(kept.size / 1e6).toFixed(1)} MB`);
  await compressFiles(building);
  say('Compressed');
}

/** Writes the JSON files of the site; returns how many. */
function writeDataFiles(building: string, files: readonly DataFile[]): number {
  for (const { path, value } of files) {
    const target = join(building, 'data', `${path}.json`);
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, JSON.stringify(value()));
  }
  return files.length;
}

/** A build that was killed in the middle of `replace` has left no site, but the old one beside its place. */
function bringBack(folder: string): void {
  if (!existsSync(folder) && existsSync(`${folder}.before`)) renameSync(`${folder}.before`, folder);
}

/** Deletes what killed builds have left. Each build has a folder of its own, so that two of them never mix their files. */
function sweep(folder: string): void {
  const parent = dirname(resolve(folder));
  if (!existsSync(parent)) return;
  for (const name of readdirSync(parent)) {
    const pid = Number(name.match(/\.building-(\d+)$/)?.[1]);
    if (name.startsWith(`${basename(folder)}.building-`) && !runs(pid)) rmSync(join(parent, name), { recursive: true, force: true });
  }
}

function runs(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Puts the new site where the old one is; the old one goes only when the new one stands. */
function replace(building: string, folder: string): void {
  const before = `${folder}.before`;
  rmSync(before, { recursive: true, force: true });
  if (existsSync(folder)) renameSync(folder, before);
  renameSync(building, folder);
  rmSync(before, { recursive: true, force: true });
}
