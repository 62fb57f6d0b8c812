/**
 * npm run check [-- FILE...] [--format text|github|json]: every fault of the content at its place; with files named, only theirs.
 * Exit code 1 on an error, 2 on wrong use.
 */
import { existsSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { parseArgs } from 'node:util';
import { strengths } from '../src/compile/order.ts';
import { checkContent } from '../src/model/check-content.ts';
import { didYouMean } from '../src/model/nearest.ts';
import { byPosition } from '../src/model/problem.ts';
import { githubReport, jsonReport, textReport } from '../src/model/report.ts';
import { runCommand, WrongUse } from './content/command.ts';
import { readContent } from './content/read.ts';

const formats = { text: textReport, github: githubReport, json: jsonReport };

function main(): number {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { format: { type: 'string', default: 'text' }, root: { type: 'string', default: '.' } },
  });
  if (!Object.hasOwn(formats, values.format))
    throw new WrongUse(
      `--format ${values.format} is not known; it is one of ${Object.keys(formats).join(', ')}.${didYouMean(values.format, Object.keys(formats))}`,
    );
  const format = formats[values.format as keyof typeof formats];
  if (!existsSync(join(values.root, 'content'))) throw new WrongUse(`There is no folder content in ${resolve(values.root)}.`);

  const { files, problems: diskProblems } = readContent(values.root);
  const wanted = positionals.map((path) => relative(values.root, path).split(sep).join('/'));
  const inside = (path: string) => wanted.length === 0 || wanted.some((name) => path === name || path.startsWith(`${name}/`));
  const contentProblems = checkContent(
    files,
    diskProblems.map((problem) => problem.file),
    strengths,
  );
  const problems = [...diskProblems, ...contentProblems].filter((problem) => inside(problem.file)).sort(byPosition);
  for (const name of wanted)
    if (
      ![...files, ...diskProblems.map((problem) => ({ path: problem.file }))].some(
        ({ path }) => path === name || path.startsWith(`${name}/`),
      )
    )
      throw new WrongUse(
        `${name} is no content file.${didYouMean(
          name,
          files.map((file) => file.path),
        )}`,
      );
  process.stdout.write(
    `${format(
      problems,
      files.filter((file) => inside(file.path)),
    )}\n`,
  );
  return problems.some((problem) => problem.severity === 'error') ? 1 : 0;
}

await runCommand('npm run check -- [FILE...] [--format text|github|json]', main);
