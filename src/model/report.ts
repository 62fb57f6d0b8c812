/** Problems -> text for people, GitHub annotations or JSON. Position, wording and frame meet here and nowhere else. */
import type { ContentFile, Problem } from './problem.ts';
import { type ProblemCode, problemCodes } from './problem-codes.ts';
import { plainText, withoutUnsafe } from './source-text.ts';

const frameWidth = 120;

/** The marked line with the one before it and a caret run under it. `lines` as positions count them; a long line is cut around the mark. */
export function codeFrame(lines: readonly string[], problem: Pick<Problem, 'line' | 'column' | 'length'>): string {
  const width = String(problem.line).length;
  const offset = problem.column > frameWidth - 20 ? problem.column - 40 : 0;
  const cut = (line: number) => {
    const text = withoutUnsafe(lines[line - 1] ?? '').replaceAll('\t', ' ');
    return `${offset ? '…' : ''}${text.slice(offset, offset + frameWidth)}${text.length > offset + frameWidth ? '…' : ''}`;
  };
  const shown = (line: number) => `  ${String(line).padStart(width)} | ${cut(line)}`.trimEnd();
  // Columns count UTF-16 units as editors do; on the screen a pair of them is one character.
  const before = withoutUnsafe(lines[problem.line - 1] ?? '').slice(offset, problem.column - 1);
  const indent = (offset ? 1 : 0) + [...before].length;
  const carets = Math.max(1, Math.min(problem.length, frameWidth - indent));
  return [
    ...(problem.line > 1 ? [shown(problem.line - 1)] : []),
    shown(problem.line),
    `  ${' '.repeat(width)} | ${' '.repeat(indent)}${'^'.repeat(carets)}`,
  ].join('\n');
}

/** One problem: where, what, why it matters, how to mend it. */
function problemText(problem: Problem, lines: readonly string[] | undefined): string {
  return [
    `${withoutUnsafe(problem.file)}:${problem.line}:${problem.column}  ${problem.severity}  ${problem.code}`,
    `  ${problem.what}`,
    ...(lines ? [codeFrame(lines, problem)] : []),
    `  Why it matters: ${problemCodes[problem.code as ProblemCode]}`,
    `  Mend: ${problem.mend}`,
  ].join('\n');
}

/** "12 files read: 1 error, 0 warnings." */
export function summary(problems: readonly Problem[], fileCount: number): string {
  const errors = problems.filter((problem) => problem.severity === 'error').length;
  const count = (n: number, noun: string) => `${n} ${noun}${n === 1 ? '' : 's'}`;
  return `${count(fileCount, 'file')} read: ${count(errors, 'error')}, ${count(problems.length - errors, 'warning')}.`;
}

/** Problems as text, all of them, with the count at the end. */
export function textReport(problems: readonly Problem[], files: readonly ContentFile[]): string {
  const marked = new Set(problems.map((problem) => problem.file));
  const linesOf = new Map(files.filter((file) => marked.has(file.path)).map((file) => [file.path, plainText(file.text).split('\n')]));
  return [...problems.map((problem) => problemText(problem, linesOf.get(problem.file))), summary(problems, files.length)].join('\n\n');
}

/** GitHub workflow commands; GitHub shows about ten, so the count comes last as a notice. */
export function githubReport(problems: readonly Problem[], files: readonly ContentFile[]): string {
  const data = (text: string) => withoutUnsafe(text).replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
  const property = (text: string) => data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
  return [
    ...problems.map(
      (problem) =>
        `::${problem.severity} file=${property(problem.file)},line=${problem.line},col=${problem.column},endColumn=${problem.column + problem.length},title=${property(problem.code)}::${data(`${problem.what} ${problem.mend}`)}`,
    ),
    `::notice::${data(summary(problems, files.length))}`,
  ].join('\n');
}

/** `{ files, errors, warnings, problems }` as JSON. */
export function jsonReport(problems: readonly Problem[], files: readonly ContentFile[]): string {
  const errors = problems.filter((problem) => problem.severity === 'error').length;
  return JSON.stringify({ files: files.length, errors, warnings: problems.length - errors, problems }, null, 2);
}
