/** Reads content from disk: bytes -> files for the model, with problems for what is not plain UTF-8 text. */
import { lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { ContentFile, Problem } from '../../src/model/problem.ts';
import type { ProblemCode } from '../../src/model/problem-codes.ts';

const maximumBytes = 200_000;

export interface DiskContent {
  readonly files: readonly ContentFile[];
  readonly problems: readonly Problem[];
}

/**
 * All .yaml files below `root`/content, sorted. Links are refused, never followed. Other files in content/ must have the
 * endings named here (templates and certificates are not content).
 */
export function readContent(root: string): DiskContent {
  const files: ContentFile[] = [];
  const problems: Problem[] = [];
  const fault = (path: string, code: ProblemCode, what: string, mend: string) =>
    problems.push({ code, severity: 'error', file: path, line: 1, column: 1, length: 1, what, mend });

  const visit = (folder: string, depth: number) => {
    for (const name of readdirSync(folder).sort()) {
      const full = join(folder, name);
      const path = relative(root, full).split(sep).join('/');
      const status = lstatSync(full);
      if (status.isSymbolicLink()) fault(path, 'file-not-plain', 'It is a symbolic link.', 'Put the file itself here.');
      else if (status.isDirectory()) {
        if (depth === 0) visit(full, 1);
        else fault(path, 'file-not-plain', 'It is a folder inside the folder of a kind.', 'Put its files into the folder of their kind.');
      } else if (!status.isFile()) fault(path, 'file-not-plain', 'It is not a plain file.', 'Delete it.');
      else if (allowedBeside.test(path)) continue;
      else if (status.size > maximumBytes)
        fault(path, 'file-too-large', `It has ${status.size} bytes; at most ${maximumBytes} are read.`, 'One file is one thing: split it.');
      else if (depth === 0 || !/\.ya?ml$/i.test(name)) {
        if (!allowedBeside.test(path))
          fault(path, 'file-not-plain', 'It is not a .yaml file in the folder of a kind.', 'Move it out of content/.');
      } else readOne(full, path);
    }
  };
  const readOne = (full: string, path: string) => {
    try {
      files.push({ path, text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(readFileSync(full)) });
    } catch (error) {
      if (error instanceof TypeError) fault(path, 'not-utf-8', 'The file holds bytes that are not UTF-8.', 'Save it as UTF-8.');
      else fault(path, 'file-unreadable', `It could not be read: ${(error as Error).message}.`, 'Check its permissions.');
    }
  };
  visit(join(root, 'content'), 0);
  return { files, problems };
}

/** Files that stand in content/ beside the knowledge. */
const allowedBeside = /^content\/(LICENSE|README\.md|[a-z-]+\/_template\.yaml|certificates\/[a-z0-9-]+\.json)$/;
