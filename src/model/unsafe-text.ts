/** Characters that make text show otherwise than it is: refused wherever they stand in a file. */
import type { ContentFile, Problem } from './problem.ts';
import { plainText, unsafeIn } from './source-text.ts';

const reportedAtMost = 20;

export function unsafeCharacters(file: ContentFile): Problem[] {
  const text = plainText(file.text);
  return unsafeIn(text)
    .slice(0, reportedAtMost)
    .map(({ offset, name }) => {
      const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
      return {
        code: 'unsafe-text',
        severity: 'error',
        file: file.path,
        line: text.slice(0, offset).split('\n').length,
        column: offset - lineStart + 1,
        length: 1,
        what: `The invisible character ${name} stands here.`,
        mend: 'Delete it.',
      };
    });
}
