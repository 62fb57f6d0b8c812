/**
 * npm run format [-- --check]: Biome for code, and `tidy` for the YAML of content, which keeps comments and layout.
 * With --check writes nothing and exits 1 when a file would change. Exit code 2 on wrong use.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { runCommand, WrongUse } from './content/command.ts';
import { tidy } from './content/tidy.ts';

/** Content files and their templates; bytes that are not UTF-8 are left to `npm run check`. */
function untidy(root: string): { path: string; text: string }[] {
  if (!existsSync(join(root, 'content'))) throw new WrongUse(`There is no folder content in ${root}.`);
  const paths = readdirSync(join(root, 'content'), { withFileTypes: true })
    .filter((folder) => folder.isDirectory())
    .flatMap((folder) =>
      readdirSync(join(root, 'content', folder.name), { withFileTypes: true }).map((entry) => ({ entry, folder: folder.name })),
    )
    .filter(({ entry }) => entry.isFile() && entry.name.endsWith('.yaml'))
    .map(({ entry, folder }) => `content/${folder}/${entry.name}`)
    .sort();
  return paths.flatMap((path) => {
    const before = readFileSync(join(root, path));
    const text = before.toString('utf8');
    if (!Buffer.from(text).equals(before)) return [];
    const after = tidy(text);
    return after === text ? [] : [{ path, text: after }];
  });
}

function main(): number {
  const { values } = parseArgs({
    options: {
      check: { type: 'boolean', default: false },
      root: { type: 'string', default: '.' },
      content: { type: 'boolean', default: false },
    },
  });
  const files = untidy(values.root);
  for (const { path, text } of files) {
    if (!values.check) writeFileSync(join(values.root, path), text);
    console.log(values.check ? `${path} would change: run npm run format.` : `${path} tidied.`);
  }
  // --content leaves the code alone: a writer of trees need not wait for it.
  const biome = values.content
    ? 0
    : (spawnSync('biome', ['check', ...(values.check ? [] : ['--write']), '.'], {
        cwd: values.root,
        stdio: 'inherit',
        env: withTools(values.root),
      }).status ?? 1);
  return values.check && files.length > 0 ? 1 : biome;
}

const withTools = (root: string) => ({ ...process.env, PATH: `${resolve(root, 'node_modules/.bin')}${delimiter}${process.env['PATH']}` });

await runCommand('npm run format -- [--check] [--content]', main);
