/** Reads content from disk: bytes -> files for the model, with problems for what is not plain UTF-8 text. */
import { isUtf8 } from 'node:buffer';
import { lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { longestFile } from '../../src/model/load.ts';
import type { ContentFile, Problem } from '../../src/model/problem.ts';
import type { ProblemCode } from '../../src/model/problem-codes.ts';

export interface DiskContent {
  readonly files: readonly ContentFile[];
  readonly problems: readonly Problem[];
}

/** Files that stand in content/ beside the knowledge. */
const allowedBeside = /^content\/(LICENSE|README\.md|[a-z-]+\/_template\.yaml|certificates\/[a-z0-9-]+\.json)$/;

/** The text of a file's bytes; a byte-order mark stays. */
const decode = (bytes: Uint8Array): string => new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);

/** The first line with bytes that are not UTF-8, or null. */
function firstForeignLine(bytes: Uint8Array): number | null {
  if (isUtf8(bytes)) return null;
  const lines = Buffer.from(bytes).toString('latin1').split('\n');
  return lines.findIndex((line) => !isUtf8(Buffer.from(line, 'latin1'))) + 1;
}

/**
 * All .yaml files below `root`/content, sorted. Links are refused, never followed; so are folders within the folder of a
 * kind. Throws only when `root`/content cannot be listed at all.
 */
export function readContent(root: string, read: (path: string) => Uint8Array = readFileSync): DiskContent {
  const files: ContentFile[] = [];
  const problems: Problem[] = [];
  const fault = (path: string, code: ProblemCode, what: string, mend: string, line = 1) =>
    problems.push({ code, severity: 'error', file: path, line, column: 1, length: 1, what, mend });
  const attempt = (path: string, action: () => void) => {
    try {
      action();
    } catch (error) {
      fault(path, 'file-unreadable', `It could not be read: ${(error as Error).message}.`, 'Check its permissions.');
    }
  };

  const visit = (names: readonly string[], folder: string, depth: number) => {
    for (const name of [...names].sort()) {
      const full = join(folder, name);
      const path = relative(root, full).split(sep).join('/');
      attempt(path, () => {
        const status = lstatSync(full);
        if (status.isSymbolicLink()) fault(path, 'file-not-plain', 'It is a symbolic link.', 'Put the file itself here.');
        else if (status.isDirectory() && depth === 0) visit(readdirSync(full), full, 1);
        else if (status.isDirectory())
          fault(path, 'file-not-plain', 'It is a folder inside the folder of a kind.', 'Put its files into the folder of their kind.');
        else if (!status.isFile()) fault(path, 'file-not-plain', 'It is not a plain file.', 'Delete it.');
        else if (allowedBeside.test(path)) return;
        else if (depth === 0 || !/\.ya?ml$/i.test(name))
          fault(path, 'file-not-plain', 'It is not a .yaml file in the folder of a kind.', 'Move it out of content/.');
        else if (status.size > longestFile)
          fault(
            path,
            'file-too-large',
            `It has ${status.size} bytes; at most ${longestFile} are read.`,
            'One file is one thing: split it.',
          );
        else {
          const bytes = read(full);
          const line = firstForeignLine(bytes);
          if (line === null) files.push({ path, text: decode(bytes) });
          else fault(path, 'not-utf-8', `Line ${line} holds bytes that are not UTF-8.`, 'Save the file as UTF-8.', line);
        }
      });
    }
  };
  const content = join(root, 'content');
  visit(readdirSync(content), content, 0);
  return { files, problems };
}
