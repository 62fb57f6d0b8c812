/** Characters that make text show otherwise than it is: refused wherever they stand in a file. */
import type { ContentFile, Problem } from './problem.ts';

// Controls but tab, LF, CR; zero-width and joiner characters; direction marks, embeddings, overrides and isolates; BOM inside text.
const unsafe =
  /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\u00AD\u061C\u180E\u200B-\u200F\u2028-\u202E\u2060-\u206F\uFFF9-\uFFFB]|(?!^)\uFEFF/g;

export function unsafeCharacters(file: ContentFile): Problem[] {
  const problems: Problem[] = [];
  for (const [index, text] of file.text.split('\n').entries()) {
    for (const match of text.matchAll(unsafe)) {
      if (problems.length >= 20) return problems;
      problems.push({
        code: 'unsafe-text',
        severity: 'error',
        file: file.path,
        line: index + 1,
        column: match.index + 1,
        length: 1,
        what: `The invisible character U+${match[0].codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')} stands here.`,
        mend: 'Delete it.',
      });
    }
  }
  return problems;
}
