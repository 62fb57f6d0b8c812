/** Content on disk -> compiled knowledge, or the report of what is wrong with it. */

import type { Knowledge } from '../../src/engine/knowledge.ts';
import { compileKnowledge } from '../../src/model/compile-knowledge.ts';
import { contentHash } from '../../src/model/hash.ts';
import { loadContent } from '../../src/model/load.ts';
import { byPosition } from '../../src/model/problem.ts';
import { textReport } from '../../src/model/report.ts';
import type { Content } from '../../src/model/schema/index.ts';
import { readContent } from './read.ts';

/** Reads and compiles content below `root`. On errors prints them to standard error and exits with code 1. */
export function knowledgeOrExit(root = '.'): { readonly content: Content; readonly knowledge: Knowledge } {
  const { files, problems: diskProblems } = readContent(root);
  const { content, problems } = loadContent(
    files,
    diskProblems.map((problem) => problem.file),
  );
  const errors = [...diskProblems, ...problems].filter((problem) => problem.severity === 'error').sort(byPosition);
  if (errors.length > 0) {
    console.error(textReport(errors, files));
    process.exit(1);
  }
  return { content, knowledge: compileKnowledge(content, contentHash(files)) };
}
