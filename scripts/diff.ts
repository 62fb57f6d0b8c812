/**
 * npm run diff -- BASE [--nodes N]: Markdown of how the content in the work tree moves each family's order and figures,
 * against a git ref. Exit code 1 when one of the two states has errors, 2 on wrong use.
 */
import { isDeepStrictEqual, parseArgs } from 'node:util';
import { defaultBudget } from '../src/engine/answer.ts';
import type { Knowledge } from '../src/engine/knowledge.ts';
import { compileKnowledge } from '../src/model/compile-knowledge.ts';
import { contentHash } from '../src/model/hash.ts';
import { loadContent } from '../src/model/load.ts';
import type { ContentFile, Problem } from '../src/model/problem.ts';
import { summary, textReport } from '../src/model/report.ts';
import { sparingNumbers } from '../src/model/rules/index.ts';
import { runCommand, WrongUse } from './content/command.ts';
import { readContent } from './content/read.ts';
import { commitOf, contentAt } from './content/read-git.ts';
import { changedNumbers } from './diff/changed-numbers.ts';
import { familyPlan, planInput } from './diff/family-plan.ts';
import { type FamilyMove, reviewMarkdown } from './diff/markdown.ts';

/** Knowledge, or the report of its errors. What is `past` may break rules that are younger than it, if they change no number. */
function compile(name: string, files: readonly ContentFile[], past: boolean, diskProblems: readonly Problem[] = []): Knowledge | string {
  const { content, problems } = loadContent(
    files,
    diskProblems.map((problem) => problem.file),
  );
  const errors = [...diskProblems, ...problems].filter(({ severity, code }) => severity === 'error' && !(past && sparingNumbers.has(code)));
  if (errors.length === 0) return compileKnowledge(content, contentHash(files));
  return `${name} has errors, so its orders cannot be computed. ${summary(errors, files.length)}\n\n${textReport(errors.slice(0, 5), files)}`;
}

function main(): number {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { root: { type: 'string', default: '.' }, nodes: { type: 'string', default: String(defaultBudget.nodes) } },
  });
  const [base, ...more] = positionals;
  if (base === undefined || more.length > 0) throw new WrongUse('Give one git ref to compare with, such as main.');
  if (!/^\d{1,7}$/.test(values.nodes)) throw new WrongUse(`--nodes ${values.nodes} is not a whole number.`);
  const budget = { nodes: Number(values.nodes) };

  const before = contentAt(values.root, commitOf(values.root, base)).filter(({ path }) => !path.endsWith('/_template.yaml'));
  const { files: after, problems } = readContent(values.root);
  const [was, is] = [compile(`The content at ${base}`, before, true), compile('The content here', after, false, problems)];
  if (typeof was === 'string' || typeof is === 'string') {
    process.stderr.write(`${[was, is].filter((report) => typeof report === 'string').join('\n\n')}\n`);
    return 1;
  }

  const families = [...new Set([...Object.keys(was.families), ...Object.keys(is.families)])].sort();
  const moves = families
    .filter((family) => planInput(family, was) !== planInput(family, is))
    .map((family): FamilyMove => ({ family, before: familyPlan(family, was, budget), after: familyPlan(family, is, budget) }))
    // A price may change without changing what anybody does or pays: it is listed with the numbers.
    .filter(({ before, after }) => !isDeepStrictEqual(before, after));
  const paths = (files: readonly ContentFile[]) => new Set(files.map((file) => file.path));
  const [old, present] = [paths(before), paths(after)];
  process.stdout.write(
    reviewMarkdown({
      base,
      moves,
      numbers: changedNumbers(before, after),
      newFiles: [...present].filter((path) => !old.has(path)).sort(),
      lostFiles: [...old].filter((path) => !present.has(path)).sort(),
    }),
  );
  return 0;
}

await runCommand('npm run diff -- BASE [--nodes N]', main);
