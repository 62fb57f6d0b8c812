/** The one place that reads content for the pages: checked, compiled and kept for the whole build. */
import type { Knowledge } from './engine/knowledge.ts';
import { compileKnowledge } from './model/compile-knowledge.ts';
import { contentHash } from './model/hash.ts';
import { loadContent } from './model/load.ts';
import type { ContentFile, Problem } from './model/problem.ts';
import { textReport } from './model/report.ts';
import type { Content } from './model/schema/index.ts';

const texts = import.meta.glob<string>('/content/*/*.yaml', { query: '?raw', import: 'default', eager: true });
const files: readonly ContentFile[] = Object.entries(texts)
  .map(([path, text]) => ({ path: path.slice(1), text }))
  .sort((a, b) => (a.path < b.path ? -1 : 1));

/** An error that the dev server shows over the page with its place in the content. */
function contentError(errors: readonly Problem[]): Error {
  const [first] = errors;
  const error = new Error(textReport(errors, files));
  error.name = `Content: ${errors.length} ${errors.length === 1 ? 'fault' : 'faults'}`;
  return Object.assign(error, { loc: { file: first!.file, line: first!.line, column: first!.column }, hint: first!.mend });
}

function load(): { readonly content: Content; readonly knowledge: Knowledge } {
  const { content, problems } = loadContent(files);
  const errors = problems.filter((problem) => problem.severity === 'error');
  if (errors.length > 0) throw contentError(errors);
  return { content, knowledge: compileKnowledge(content, contentHash(files)) };
}

export const { content, knowledge } = load();
