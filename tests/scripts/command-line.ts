/** Runs commands as a person would, in a copy of the project. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';

export const project = join(import.meta.dirname, '../..');

export interface Answer {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** A folder with the scripts, sources and content of the project (or the content of `world`); gone when the test ends. */
export function copyOfProject(world = project): string {
  const folder = mkdtempSync(join(tmpdir(), 'lampwise-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const part of ['package.json', '.biome.json', '.vscode', 'scripts', 'src', 'tests/boundaries.test.ts'])
    cpSync(join(project, part), join(folder, part), { recursive: true, force: true, errorOnExist: false });
  cpSync(join(world, 'content'), join(folder, 'content'), { recursive: true });
  symlinkSync(join(project, 'node_modules'), join(folder, 'node_modules'));
  return folder;
}

/** The environment with the Node that runs the tests first on the path, and no colours. */
export const withNode = (): NodeJS.ProcessEnv => ({
  ...process.env,
  PATH: `${dirname(process.execPath)}${delimiter}${process.env['PATH']}`,
  NO_COLOR: '1',
});

/** Runs `node scripts/NAME.ts ARGUMENTS` with the Node that runs the tests. */
export function run(folder: string, name: string, ...given: string[]): Answer {
  const { status, stdout, stderr } = spawnSync(process.execPath, [`scripts/${name}.ts`, ...given], {
    cwd: folder,
    encoding: 'utf8',
    env: withNode(),
    maxBuffer: 50_000_000,
  });
  return { code: status, out: stdout, err: stderr };
}
