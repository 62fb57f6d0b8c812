/** Reads content as it stood at a git ref, into memory: the work tree is not touched. */
import { spawnSync } from 'node:child_process';
import type { ContentFile } from '../../src/model/problem.ts';
import { WrongUse } from './command.ts';

const git = (root: string, given: readonly string[], input?: string): { code: number | null; bytes: Buffer; err: string } => {
  const { status, stdout, stderr, error } = spawnSync('git', given, { cwd: root, input: input ?? '', maxBuffer: 1_000_000_000 });
  if (error) throw new WrongUse(`git could not be started: ${error.message}.`);
  return { code: status, bytes: stdout, err: stderr.toString() };
};

/** The commit that `ref` names. Throws WrongUse when there is none. */
export function commitOf(root: string, ref: string): string {
  const { code, bytes, err } = git(root, ['rev-parse', '--verify', '--quiet', '--end-of-options', `${ref}^{commit}`]);
  if (code === 0) return bytes.toString().trim();
  if (/not a git repository/.test(err)) throw new WrongUse('This is not a git repository, so there is nothing to compare with.');
  throw new WrongUse(`git knows no commit "${ref}". Name a branch, a tag or a commit; a shallow clone may lack it.`);
}

/** All plain .yaml files below content/ at a commit, sorted by path. Bytes that are not UTF-8 show as replacement characters. */
export function contentAt(root: string, commit: string): readonly ContentFile[] {
  const listed = git(root, ['ls-tree', '-r', '-z', commit, '--', 'content/']).bytes.toString();
  const entries = listed.split('\0').flatMap((line) => {
    const [, mode, hash, path] = line.match(/^(\d+) blob ([0-9a-f]+)\t(content\/[^/]+\/[^/]+\.yaml)$/) ?? [];
    return mode?.startsWith('100') ? [{ hash: hash!, path: path! }] : [];
  });
  const { bytes } = git(root, ['cat-file', '--batch'], entries.map(({ hash }) => `${hash}\n`).join(''));
  let offset = 0;
  return entries.map(({ path }) => {
    const headEnd = bytes.indexOf('\n', offset);
    const size = Number(bytes.subarray(offset, headEnd).toString().split(' ')[2]);
    const text = bytes.subarray(headEnd + 1, headEnd + 1 + size).toString('utf8');
    offset = headEnd + 1 + size + 1;
    return { path, text };
  });
}
