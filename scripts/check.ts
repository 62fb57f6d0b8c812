/** npm run check: every fault of the content at its place. Exit code 1 on an error, 2 on wrong use. */
import { parseArgs } from 'node:util';
import { loadContent } from '../src/model/load.ts';
import { byPosition } from '../src/model/problem.ts';
import { githubReport, jsonReport, textReport } from '../src/model/report.ts';
import { readContent } from './content/read.ts';

const formats = { text: textReport, github: githubReport, json: jsonReport };
const { values } = parseArgs({ options: { format: { type: 'string', default: 'text' }, root: { type: 'string', default: '.' } } });
const format = formats[values.format as keyof typeof formats];
if (!format) {
  console.error(`--format ${values.format} is not known; it is one of ${Object.keys(formats).join(', ')}.`);
  process.exit(2);
}
const { files, problems: diskProblems } = readContent(values.root);
const problems = [...diskProblems, ...loadContent(files).problems].sort(byPosition);
process.stdout.write(`${format(problems, files)}\n`);
process.exitCode = problems.some((problem) => problem.severity === 'error') ? 1 : 0;
