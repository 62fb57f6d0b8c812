/** Problems -> text for people, GitHub annotations or JSON. Position, wording and frame meet here and nowhere else. */
import type { ContentFile, Problem } from './problem.ts';
import { type ProblemCode, problemCodes } from './problem-codes.ts';

/** The marked line with the one before it and a caret run under it. */
export function codeFrame(text: string, problem: Pick<Problem, 'line' | 'column' | 'length'>): string {
  const lines = text.split('\n');
  const width = String(problem.line).length;
  const shown = (line: number) => `  ${String(line).padStart(width)} | ${(lines[line - 1] ?? '').replaceAll('\t', ' ').slice(0, 160)}`;
  const caret = `  ${' '.repeat(width)} | ${' '.repeat(Math.min(problem.column - 1, 159))}${'^'.repeat(Math.max(1, Math.min(problem.length, 160 - problem.column)))}`;
  return [...(problem.line > 1 ? [shown(problem.line - 1)] : []), shown(problem.line), caret].join('\n');
}

/** One problem: where, what, why it matters, how to mend it. */
export function problemText(problem: Problem, file: ContentFile | undefined): string {
  return [
    `${problem.file}:${problem.line}:${problem.column}  ${problem.severity}  ${problem.code}`,
    `  ${problem.what}`,
    ...(file ? [codeFrame(file.text, problem)] : []),
    `  Why it matters: ${problemCodes[problem.code as ProblemCode] ?? ''}`,
    `  Mend: ${problem.mend}`,
  ].join('\n');
}

export function summary(problems: readonly Problem[], fileCount: number): string {
  const errors = problems.filter((problem) => problem.severity === 'error').length;
  const warnings = problems.length - errors;
  const count = (n: number, noun: string) => `${n} ${noun}${n === 1 ? '' : 's'}`;
  return `${count(fileCount, 'file')} read: ${count(errors, 'error')}, ${count(warnings, 'warning')}.`;
}

/** Problems as text, all of them, with the count at the end. */
export function textReport(problems: readonly Problem[], files: readonly ContentFile[]): string {
  const byPath = new Map(files.map((file) => [file.path, file]));
  return [...problems.map((problem) => problemText(problem, byPath.get(problem.file))), summary(problems, files.length)].join('\n\n');
}

/** GitHub workflow commands; GitHub shows about ten, so the count comes last as a notice. */
export function githubReport(problems: readonly Problem[], files: readonly ContentFile[]): string {
  const property = (text: string) => data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
  const data = (text: string) => text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
  return [
    ...problems.map(
      (problem) =>
        `::${problem.severity} file=${property(problem.file)},line=${problem.line},col=${problem.column},endColumn=${problem.column + problem.length},title=${property(problem.code)}::${data(`${problem.what} ${problem.mend}`)}`,
    ),
    `::notice::${data(summary(problems, files.length))}`,
  ].join('\n');
}

export function jsonReport(problems: readonly Problem[], files: readonly ContentFile[]): string {
  return JSON.stringify({ files: files.length, problems }, null, 2);
}
