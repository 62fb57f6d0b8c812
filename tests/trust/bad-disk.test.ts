/** Disks that are full, that cannot be read or cannot be written to: a build says which, and the last good site stays. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { failureText } from '../../scripts/build/failure.ts';
import { build, buildEnvironment, namedByPages, projectWith, smallContent } from './small-site.ts';

let project: string;
beforeAll(() => {
  project = projectWith([...smallContent, ...namedByPages]);
  mkdirSync(join(project, 'site'));
  writeFileSync(join(project, 'site/index.html'), 'the last good site');
});
afterAll(() => rmSync(project, { recursive: true, force: true }));

/** Whatever went wrong, the site before it stands, and nothing half done stands beside it. */
const lastGoodStands = () => {
  expect(readdirSync(join(project, 'site'))).toEqual(['index.html']);
  expect(readdirSync(project).filter((name) => name.startsWith('site.'))).toEqual([]);
};

describe('errors of the file system in words', () => {
  const failed = (code: string, path?: string) => failureText(Object.assign(new Error(`${code}: as the system says it`), { code, path }));
  test.each([
    ['ENOSPC', 'the disk is full'],
    ['EDQUOT', 'the disk quota is used up'],
    ['EROFS', 'that disk can only be read'],
    ['EACCES', 'this user may not write there'],
    ['ENOTDIR', 'a part of the path is a file and no folder'],
  ])('%s: %s, and where', (code, words) => {
    expect(failed(code, '/a/b')).toBe(`/a/b: ${words}`);
    expect(failed(code)).toBe(words);
  });
  test('any other error in its own words', () => {
    expect(failureText(new Error('The pages could not be made'))).toBe('The pages could not be made');
    expect(failed('EOTHER', '/a')).toBe('EOTHER: as the system says it');
  });
});

test('a folder to build into that lies below a file is refused before the long work', () => {
  writeFileSync(join(project, 'a-file'), '');
  const { status, stdout, stderr } = spawnSync(process.execPath, ['scripts/build.ts', '--out', 'a-file/site'], {
    cwd: project,
    encoding: 'utf8',
  });
  expect(status).toBe(1);
  expect(stderr).toMatch(/a-file: a part of the path is a file and no folder/);
  expect(stdout).not.toContain('Orders');
});

test('an option that the build does not have is wrong use', () => {
  const { status, stderr } = spawnSync(process.execPath, ['scripts/build.ts', '--into', 'x'], { cwd: project, encoding: 'utf8' });
  expect(status).toBe(2);
  expect(stderr).toContain('--into');
  expect(stderr).toContain('npm run build [-- --out FOLDER]');
});

/** Runs a build whose writes to paths that contain `part` fail with ENOSPC, as on a full disk, in it and in all that it starts. */
function buildWithFullDisk(part: string) {
  const preload = join(project, 'full-disk.mjs');
  writeFileSync(
    preload,
    `import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
const full = (path) => String(path).includes(${JSON.stringify(part)});
const fault = (path) => Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC', path: String(path) });
const { writeFileSync } = fs;
const { writeFile } = fs.promises;
fs.writeFileSync = (path, ...rest) => { if (full(path)) throw fault(path); return writeFileSync(path, ...rest); };
fs.promises.writeFile = async (path, ...rest) => { if (full(path)) throw fault(path); return writeFile(path, ...rest); };
syncBuiltinESMExports();
`,
  );
  return build(project, { NODE_OPTIONS: `--import=file://${encodeURI(preload)}` });
}

describe('a disk that is full', () => {
  test('where results are kept, stops the build and says so', { timeout: 120_000 }, () => {
    const { code, err } = buildWithFullDisk(`${join('.cache', 'orders')}`);
    expect(code).toBe(1);
    expect(err).toContain('the last good site is still in place');
    expect(err).toContain('the disk is full');
    lastGoodStands();
  });

  test('where pages go, stops the build and says so', { timeout: 120_000 }, () => {
    const { code, err } = buildWithFullDisk(`${join('checks', 'look-at-hoses', 'index.html')}`);
    expect(code).toBe(1);
    expect(err).toContain('The pages could not be made');
    expect(err).toContain('ENOSPC');
    lastGoodStands();
  });
});

/** A file system of so many megabytes in memory, or null where the system does not let us have one. */
function smallDisk(megabytes: number): string | null {
  const place = mkdtempSync(join(tmpdir(), 'lampwise-disk-'));
  onTestFinished(() => {
    spawnSync('umount', [place]);
    rmSync(place, { recursive: true, force: true });
  });
  return spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', place]).status === 0 ? place : null;
}

describe('another disk than that of the project', () => {
  const buildOn = (place: string) =>
    spawnSync(process.execPath, ['scripts/build.ts', '--out', join(place, 'site')], {
      cwd: project,
      encoding: 'utf8',
      env: buildEnvironment(),
    });
  const nothingLeft = () => expect(readdirSync(join(project, '.cache')).filter((name) => name.startsWith('building'))).toEqual([]);

  test('that is large enough: the site is built there', { timeout: 120_000 }, ({ skip }) => {
    const place = smallDisk(200);
    if (!place) return skip('only a user who may mount file systems can try this');
    const { status, stderr } = buildOn(place);
    expect(status, stderr).toBe(0);
    expect(readdirSync(place)).toEqual(['site']);
    expect(existsSync(join(place, 'site/sw.js.br'))).toBe(true);
    nothingLeft();
  });

  test('that is too small: the build says so, and leaves nothing on it', { timeout: 120_000 }, ({ skip }) => {
    const place = smallDisk(1);
    if (!place) return skip('only a user who may mount file systems can try this');
    const { status, stderr } = buildOn(place);
    expect(status).toBe(1);
    expect(stderr).toContain('the disk is full');
    expect(readdirSync(place)).toEqual([]);
    nothingLeft();
  });
});
