/**
 * npm run new -- KIND ID: starts a content file from the annotated template of its kind, with its title made from the id.
 * What it writes passes `npm run check` as it stands. Exit code 2 on wrong use; an existing file is never touched.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { didYouMean, nearest } from '../src/model/nearest.ts';
import { idPattern } from '../src/model/schema/scalars.ts';
import { runCommand, WrongUse } from './content/command.ts';

const folders: Readonly<Record<string, string>> = {
  family: 'families',
  cause: 'causes',
  check: 'checks',
  symptom: 'symptoms',
  tool: 'tools',
  part: 'parts',
  caution: 'cautions',
  'set-up': 'set-ups',
  term: 'terms',
  source: 'sources',
};
const longestId = 60;

function main(): number {
  const { values, positionals } = parseArgs({ allowPositionals: true, options: { root: { type: 'string', default: '.' } } });
  const [kind, id, ...more] = positionals;
  if (kind === undefined || id === undefined || more.length > 0) throw new WrongUse('Give a kind and an id.');
  const folder = Object.hasOwn(folders, kind) ? folders[kind]! : undefined;
  if (!folder)
    throw new WrongUse(`${kind} is not a kind.${didYouMean(kind, Object.keys(folders))} Kinds: ${Object.keys(folders).join(', ')}.`);
  if (!idPattern.test(id) || id.length > longestId) {
    const better = id
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^[-0-9]+|-+$/g, '')
      .slice(0, longestId);
    throw new WrongUse(
      `"${id}" is not an id: lower-case words joined by hyphens, ${longestId} characters at most.${better && idPattern.test(better) ? ` Use ${better}?` : ''}`,
    );
  }
  const path = `content/${folder}/${id}.yaml`;
  const full = join(values.root, path);
  if (existsSync(full)) throw new WrongUse(`${path} exists already. Edit it, or choose another id.`);
  const template = join(values.root, `content/${folder}/_template.yaml`);
  if (!existsSync(template)) throw new WrongUse(`There is no ${template}: run this from the top of the project.`);

  const title = `${id[0]!.toUpperCase()}${id.slice(1).replaceAll('-', ' ')}`;
  writeFileSync(
    full,
    readFileSync(template, 'utf8').replace(/^title: .*$/m, () => `title: ${title}`),
    { flag: 'wx' },
  );

  const others = readdirSync(join(values.root, 'content', folder)).map((name) => name.replace(/\.yaml$/, ''));
  const near = nearest(
    id,
    others.filter((other) => other !== id && other !== '_template'),
  );
  console.log(`${path} written from the template.`);
  if (near) console.log(`There is content/${folder}/${near}.yaml too: make sure that it is not the same thing.`);
  console.log(`Edit it, then: npm run check -- ${path}`);
  return 0;
}

await runCommand(`npm run new -- ${Object.keys(folders).join('|')} ID`, main);
