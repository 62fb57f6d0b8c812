/** Builds that one can rely on: the same bytes anywhere, valid pages, and the last good site whatever happens on the way. */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { HtmlValidate } from 'html-validate';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { keep, kept, keyOf } from '../../src/kept/store.ts';
import { allFiles, allPages, type BuiltPage } from '../pages/built-pages.ts';
import { hostileFiles, hostileProject } from './hostile-site.ts';
import { build, buildCommand, buildEnvironment, built, projectWith } from './small-site.ts';

const sha = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');
const filesOf = (site: string): Readonly<Record<string, string>> =>
  Object.fromEntries(allFiles(site).map((path) => [path, sha(readFileSync(join(site, path)))]));

const folders: string[] = [];
let first: string;
let files: Readonly<Record<string, string>>;
beforeAll(() => {
  // A copy, with all that was kept for it, for these tests spoil what they build.
  first = projectWith(hostileFiles, 'lampwise-', hostileProject);
  folders.push(first);
  for (const part of ['site', '.cache']) cpSync(join(hostileProject, part), join(first, part), { recursive: true });
  files = filesOf(join(first, 'site'));
}, 60_000);
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

test('two builds are the same to the byte, from another folder, at another time, in another locale and time zone, without what was kept', {
  timeout: 240_000,
}, () => {
  // Files in another order of creation, which some file systems list them in.
  const second = projectWith([...hostileFiles].reverse(), 'another place, with spaces-', first);
  folders.push(second);
  const again = filesOf(built(second, { LANG: 'tr_TR.UTF-8', LC_ALL: 'tr_TR.UTF-8', TZ: 'Pacific/Kiritimati' }));
  const different = Object.keys({ ...files, ...again }).filter((path) => files[path] !== again[path]);
  console.log(`same to the byte: ${Object.keys(files).length} files`);
  expect(different).toEqual([]);
  expect(Object.keys(files).length).toBeGreaterThan(500);
});

test('nothing in the built files names the machine that they were built on', () => {
  const site = join(first, 'site');
  const named = allFiles(site).filter((path) => {
    const text = readFileSync(join(site, path), 'latin1');
    return text.includes(join(realpathSync(tmpdir()), 'lampwise-')) || text.includes(process.cwd());
  });
  expect(named).toEqual([]);
});

describe('the HTML', () => {
  // Rules of the standard, and none of taste.
  const validator = new HtmlValidate({ root: true, extends: ['html-validate:standard'] });
  const faultsOf = async (pages: readonly BuiltPage[]): Promise<readonly string[]> => {
    const found: string[] = [];
    for (const { path, html } of pages)
      for (const { messages } of (await validator.validateString(html, path)).results)
        found.push(...messages.map(({ ruleId, message, line, column }) => `${path}:${line}:${column} ${ruleId}: ${message}`));
    return found;
  };

  test('is read by a validator that finds what is wrong', async () => {
    const html = '<!doctype html><html lang="en"><head><title>A</title></head><body><span><h3>b</h3></span></body></html>';
    expect(await faultsOf([{ path: '/', html }])).toHaveLength(1);
  });

  test('is valid on every page of a small site whose texts are hostile', { timeout: 120_000 }, async () => {
    const pages = allPages(join(first, 'site'));
    expect(pages.length).toBeGreaterThan(200);
    expect(await faultsOf(pages)).toEqual([]);
  });

  test.skipIf(!process.env['LAMPWISE_OUT'])('is valid on pages of every kind of the shipped site', { timeout: 120_000 }, async () => {
    const byFolder = Map.groupBy(allPages(), ({ path }) => path.split('/').slice(0, -2).join('/'));
    const pages = [...byFolder.values()].flatMap((list) => list.slice(0, 3));
    console.log(`valid HTML: ${pages.length} pages of the shipped site`);
    expect(pages.length).toBeGreaterThan(40);
    expect(await faultsOf(pages)).toEqual([]);
  });
});

describe('a build that does not come to its end', () => {
  const site = () => join(first, 'site');

  /** Starts a build and kills it with all that it started, once `when` holds. */
  const killed = (when: () => boolean): Promise<void> =>
    new Promise((resolve, reject) => {
      const child = spawn(process.execPath, buildCommand, { cwd: first, env: buildEnvironment(), stdio: 'ignore', detached: true });
      let done = false;
      const look = setInterval(() => {
        if (!when()) return;
        done = true;
        clearInterval(look);
        process.kill(-child.pid!, 'SIGKILL');
      }, 5);
      child.on('close', () => {
        clearInterval(look);
        if (done) resolve();
        else reject(new Error('The build ended before it was killed.'));
      });
    });
  const unfinished = (path: string): boolean =>
    readdirSync(first).some((name) => name.startsWith('site.building-') && existsSync(join(first, name, path)));

  test('because it is killed while it makes pages or the offline copy, leaves the last good site as it was', {
    timeout: 240_000,
  }, async () => {
    await killed(() => unfinished('codes/p0300/index.html'));
    expect(filesOf(site())).toEqual(files);
    await killed(() => unfinished('sw.js'));
    expect(filesOf(site())).toEqual(files);
  });

  test('because the content is at fault, says where and leaves the last good site', () => {
    const path = join(first, 'content/tools/pliers.yaml');
    const before = readFileSync(path);
    writeFileSync(path, 'titel: Pliers\n');
    const { code, err } = build(first);
    writeFileSync(path, before);
    expect(code).toBe(1);
    expect(err).toContain('content/tools/pliers.yaml:1:1');
    expect(filesOf(site())).toEqual(files);
  });

  // The user root may read everything.
  test.skipIf(process.getuid?.() === 0)('because a file cannot be read, says which', () => {
    const path = join(first, 'content/tools/pliers.yaml');
    chmodSync(path, 0);
    const { code, err } = build(first);
    chmodSync(path, 0o644);
    expect(code).toBe(1);
    expect(err).toContain('content/tools/pliers.yaml:1:1  error  file-unreadable');
  });

  test('because it was killed between two renames: the site before it comes back', { timeout: 240_000 }, () => {
    renameSync(site(), `${site()}.before`);
    const path = join(first, 'content/tools/pliers.yaml');
    const before = readFileSync(path);
    writeFileSync(path, 'titel: Pliers\n');
    expect(build(first).code).toBe(1);
    writeFileSync(path, before);
    expect(filesOf(site())).toEqual(files);
  });
});

describe('what is kept between builds', () => {
  const folder = () => {
    const place = mkdtempSync(join(tmpdir(), 'lampwise-kept-'));
    onTestFinished(() => rmSync(place, { recursive: true, force: true }));
    return place;
  };
  const key = keyOf('a', 'b');
  const value = { cost: 12.5, order: ['a', 'b'] };

  test('comes back as it was', () => {
    const place = folder();
    keep('orders', key, value, place);
    expect(kept('orders', key, place)).toEqual(value);
    expect(kept('orders', keyOf('ab', ''), place)).toBeNull();
    expect(readdirSync(join(place, 'orders'))).toEqual([`${key}.json`]);
  });

  test('is nothing once any one byte of it is another, or it is cut off anywhere', () => {
    const place = folder();
    keep('orders', key, value, place);
    const path = join(place, 'orders', `${key}.json`);
    const good = readFileSync(path);
    for (let at = 0; at < good.length; at++) {
      const flipped = Buffer.from(good);
      flipped[at]! ^= 1;
      writeFileSync(path, flipped);
      expect(kept('orders', key, place), `byte ${at}`).toBeNull();
      writeFileSync(path, good.subarray(0, at));
      expect(kept('orders', key, place), `cut at ${at}`).toBeNull();
    }
    writeFileSync(path, good);
    expect(kept('orders', key, place)).toEqual(value);
  });

  test('is nothing under another name, or in another place', () => {
    const place = folder();
    keep('orders', key, value, place);
    const other = keyOf('b', 'a');
    cpSync(join(place, 'orders', `${key}.json`), join(place, 'orders', `${other}.json`));
    expect(kept('orders', other, place)).toBeNull();
    expect(kept('diagrams', key, place)).toBeNull();
    cpSync(join(place, 'orders'), join(place, 'diagrams'), { recursive: true });
    expect(kept('diagrams', key, place), 'an order is no diagram').toBeNull();
  });

  test('is made anew by a build that finds it damaged, and that sweeps up what killed builds have left', { timeout: 240_000 }, () => {
    const place = join(first, '.cache');
    const damaged = ['orders', 'shown-orders', 'diagrams'].flatMap((kind) =>
      readdirSync(join(place, kind)).map((name) => join(place, kind, name)),
    );
    expect(damaged.length).toBeGreaterThan(2);
    for (const [index, path] of damaged.entries()) {
      const bytes = readFileSync(path);
      writeFileSync(path, index % 2 === 0 ? bytes.subarray(0, statSync(path).size / 2) : bytes.toString().replace(/\d(?=[^\d]*$)/, '9'));
    }
    expect(filesOf(built(first))).toEqual(files);
    expect(readdirSync(first).filter((name) => /site\./.test(name))).toEqual([]);
    for (const path of damaged) expect(JSON.parse(readFileSync(path, 'utf8').split('\n')[1]!)).toBeTruthy();
  });
});
