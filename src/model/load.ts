/** Content files -> validated content, or every problem in them. Pure: no file system. */
import { isTemplate, pathPattern } from './content-path.ts';
import { readDocument, type YamlDocument } from './document.ts';
import { didYouMean } from './nearest.ts';
import { byPosition, type ContentFile, type Problem } from './problem.ts';
import type { ProblemCode } from './problem-codes.ts';
import { rules } from './rules/index.ts';
import type { Loaded, Report } from './rules/rule.ts';
import { type Content, type Kind, kinds, schemas } from './schema/index.ts';
import { idPattern } from './schema/scalars.ts';
import { validate } from './schema-problems.ts';
import { unsafeCharacters } from './unsafe-text.ts';

/** Characters of one file that are read; content files have a few thousand. */
export const longestFile = 200_000;

export interface LoadResult {
  /** Complete only when `problems` has no error. */
  readonly content: Content;
  readonly documents: ReadonlyMap<string, YamlDocument>;
  readonly problems: readonly Problem[];
}

/**
 * Reads, validates and cross-checks all content. Never throws for bad content; every problem has a position.
 * `unread` are paths of files that exist but whose text could not be had: references to them are no dead links.
 */
export function loadContent(files: readonly ContentFile[], unread: readonly string[] = []): LoadResult {
  const problems: Problem[] = [];
  const content = Object.fromEntries(kinds.map((kind) => [kind, new Map()])) as unknown as { [K in Kind]: Map<string, never> };
  const documents = new Map<string, YamlDocument>();
  const seen = new Map<string, string>();
  const fault = (file: ContentFile, code: ProblemCode, what: string, mend: string) =>
    problems.push({ code, severity: 'error', file: file.path, line: 1, column: 1, length: 1, what, mend });

  for (const path of unread) {
    const [, kind, id] = path.match(pathPattern) ?? [];
    if ((kinds as string[]).includes(kind ?? '')) seen.set(`${kind}/${id}`, path);
  }
  for (const file of [...files].sort((a, b) => (a.path < b.path ? -1 : 1))) {
    if (isTemplate(file.path)) continue;
    const match = file.path.match(pathPattern);
    const folder = match?.[1] ?? '';
    const name = match?.[2] ?? '';
    if (!match) {
      fault(
        file,
        'file-not-plain',
        `${file.path} is not content/KIND/ID.yaml.`,
        'Move it into the folder of its kind, as one file of lower-case words joined by hyphens.',
      );
      continue;
    }
    if (!(kinds as string[]).includes(folder)) {
      fault(
        file,
        'unknown-folder',
        `content/${folder}/ is not a kind of content.`,
        `Kinds are ${kinds.join(', ')}.${didYouMean(folder, kinds)}`,
      );
      continue;
    }
    const kind = folder as Kind;
    if (!idPattern.test(name) || !file.path.endsWith('.yaml')) {
      fault(
        file,
        'bad-file-name',
        `"${file.path.split('/').at(-1)}" is not an id with the ending .yaml.`,
        'Rename it to lower-case words joined by hyphens, such as worn-spark-plugs.yaml.',
      );
      continue;
    }
    if (seen.has(`${kind}/${name}`)) {
      fault(file, 'duplicate-id', `${kind}/${name} is also ${seen.get(`${kind}/${name}`)}.`, 'Rename one of the two.');
      continue;
    }
    seen.set(`${kind}/${name}`, file.path);
    if (file.text.length > longestFile) {
      fault(
        file,
        'file-too-large',
        `The file has ${file.text.length} characters; at most ${longestFile} are read.`,
        'One file is one thing: split it.',
      );
      continue;
    }
    problems.push(...unsafeCharacters(file));
    const { document, problems: syntax } = readDocument(file);
    problems.push(...syntax);
    if (document.value === undefined) continue;
    const { value, problems: schemaProblems } = validate(document, schemas[kind] as never);
    problems.push(...schemaProblems);
    documents.set(`${kind}/${name}`, document);
    if (value !== undefined) content[kind].set(name, value as never);
  }

  const loaded: Loaded = {
    content,
    documents,
    knownIds: (kind) => [...seen.keys()].filter((key) => key.startsWith(`${kind}/`)).map((key) => key.slice(kind.length + 1)),
  };
  const broken = new Set(
    [...seen.keys()].flatMap((key) => {
      const [kind = '', id = ''] = key.split('/');
      return content[kind as Kind].has(id) ? [] : [kind];
    }),
  );
  for (const rule of rules) {
    if (rule.wants?.some((kind) => broken.has(kind))) continue;
    const report: Report = (kind, id, path, what, mend, options = {}) => {
      const document = documents.get(`${kind}/${id}`);
      const position = document ? (options.atKey ? document.atKey(path) : document.at(path)) : { line: 1, column: 1, length: 1 };
      problems.push({
        code: options.code ?? rule.code,
        severity: rule.severity,
        file: document?.file.path ?? `content/${kind}/${id}.yaml`,
        ...position,
        what,
        mend,
      });
    };
    rule.check(loaded, report);
  }
  return { content: content as Content, documents, problems: problems.sort(byPosition) };
}
