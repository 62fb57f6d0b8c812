/** Follows the tutorial of DEVELOPERS.md command by command and edit by edit, in a copy of the project. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copyOfProject, project, withNode } from './command-line.ts';

interface Block {
  readonly kind: string;
  readonly lines: readonly string[];
}

const guide = readFileSync(join(project, 'DEVELOPERS.md'), 'utf8');
const tutorial = guide.slice(guide.indexOf('### A first cause'), guide.indexOf('### Shares'));
const blocks: readonly Block[] = [...tutorial.matchAll(/^```(.*)\n([\s\S]*?)^```$/gm)].map(([, kind, body]) => ({
  kind: kind!,
  lines: body!.replace(/\n$/, '').split('\n'),
}));

/** Applies one edit as a person reads it: lines with "-" go, lines with "+" come, others stay. */
function edit(folder: string, [head, ...lines]: readonly string[]): void {
  const path = join(folder, head!.replace(/^--- /, ''));
  const text = readFileSync(path, 'utf8');
  const side = (leaves: string) =>
    lines
      .filter((line) => !line.startsWith(leaves))
      .map((line) => `${line.slice(1)}\n`)
      .join('');
  const [old, fresh] = [side('+'), side('-')];
  expect(text.split(old), `${head}: what is to be replaced stands there once:\n${old}`).toHaveLength(2);
  writeFileSync(
    path,
    text.replace(old, () => fresh),
  );
}

describe('the tutorial', { timeout: 180_000 }, () => {
  it('leads from a copy of the project to a green check', () => {
    const folder = copyOfProject();
    const git = (...given: string[]) =>
      execFileSync('git', ['-c', 'user.name=test', '-c', 'user.email=test@example.invalid', ...given], { cwd: folder });
    git('init', '-q');
    git('add', 'content');
    git('commit', '-q', '-m', 'start');
    let printed = '';
    for (const { kind, lines } of blocks) {
      if (kind === 'diff') edit(folder, lines);
      else if (kind === 'text') for (const line of lines) expect(printed.split('\n')).toContain(line);
      else {
        expect(['sh', 'sh fails']).toContain(kind);
        for (const line of lines) {
          const [npm, ...words] = line.split(' ');
          expect(npm).toBe('npm');
          const { status, stdout, stderr } = spawnSync('npm', words, {
            cwd: folder,
            encoding: 'utf8',
            env: withNode(),
            maxBuffer: 50_000_000,
          });
          printed = stdout;
          expect(status === 0, `${line} exits with ${status}:\n${stdout.slice(-2000)}${stderr.slice(-2000)}`).toBe(kind === 'sh');
        }
      }
    }
  });

  it('has commands, edits and answers to follow', () => {
    const count = (kind: string) => blocks.filter((block) => block.kind === kind).length;
    expect(count('sh')).toBeGreaterThanOrEqual(3);
    expect(count('sh fails')).toBe(1);
    expect(count('diff')).toBeGreaterThanOrEqual(8);
    expect(count('text')).toBe(2);
  });
});

describe('the guide', () => {
  it('names only commands that the project has', () => {
    const { scripts } = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8')) as { scripts: Record<string, string> };
    for (const [, command] of guide.matchAll(/npm run ([a-z]+)/g)) expect(Object.keys(scripts)).toContain(command);
  });

  it('has its sums right', () => {
    expect((0.6 * 0.8) / (0.6 * 0.8 + 0.4 * 0.02)).toBeCloseTo(0.98, 2);
    expect((0.6 * 0.2) / (0.6 * 0.2 + 0.4 * 0.98)).toBeCloseTo(0.23, 2);
    expect(guide).toContain('.480 / .488 = 98 %');
    expect(guide).toContain('falls to 23 %');
  });
});
