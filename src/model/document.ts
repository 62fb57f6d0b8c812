/** YAML text -> plain value with positions, or problems. With `yaml-faults.ts` the one place that knows the `yaml` package. */
import { Composer, type Document, isCollection, isMap, isScalar, isSeq, Lexer, LineCounter, type Node, Parser } from 'yaml';
import type { ContentFile, Position, Problem } from './problem.ts';
import { plainText } from './source-text.ts';
import { nodeFaults, syntaxFaults } from './yaml-faults.ts';
import { type Locate, type ReportYaml, rangeOf, start } from './yaml-position.ts';

export type Path = readonly (string | number)[];

export interface YamlDocument {
  readonly file: ContentFile;
  readonly value: unknown;
  /** Position of the value at `path`, or of the deepest part of the path that exists. */
  readonly at: (path: Path) => Position;
  /** Position of the key at the end of `path`. */
  readonly atKey: (path: Path) => Position;
}

/** Open collections that the parser may hold; content needs about ten. */
const deepest = 64;

/** Reads one file. A document that is not sound YAML has value undefined. */
export function readDocument(file: ContentFile): { readonly document: YamlDocument; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const report: ReportYaml = (code, position, what, mend) =>
    problems.push({ code, severity: 'error', file: file.path, ...position, what, mend });

  if (file.text.startsWith('\uFEFF'))
    report('yaml-byte-order-mark', start, 'The file starts with a byte-order mark.', 'Save it as UTF-8 without a byte-order mark.');
  const carriageReturn = file.text.indexOf('\r');
  if (carriageReturn >= 0) {
    const line = file.text.slice(0, carriageReturn).split('\n').length;
    report(
      'yaml-line-ends',
      { ...start, line },
      'The file has carriage returns.',
      'Save it with line feeds (LF) only, or run `npm run format`.',
    );
  }
  const marksOnly = problems.length;

  const text = plainText(file.text);
  const lines = new LineCounter();
  const locate: Locate = (from, to = from + 1) => {
    const { line, col } = lines.linePos(from);
    const newline = text.indexOf('\n', from);
    return { line, column: col, length: Math.max(1, Math.min(to, newline < 0 ? text.length : newline) - from) };
  };
  const { parsed, tooDeepAt } = compose(text, lines);
  if (tooDeepAt !== null) {
    report(
      'yaml-too-deep',
      locate(Math.min(tooDeepAt, Math.max(0, text.length - 1))),
      `Here the file is nested more than ${deepest} levels deep.`,
      'Content is nested about ten levels deep at most: compare with the template of this kind of file.',
    );
  } else if (parsed) {
    syntaxFaults(parsed, text, locate, report);
    nodeFaults(parsed, text, locate, report);
  }

  // A byte-order mark and carriage returns leave the value sound; anything else could change or explode it.
  const value = problems.length > marksOnly ? undefined : parsed ? parsed.toJS({ maxAliasCount: 0 }) : null;
  // Most files have no fault, so their nodes are let go; the few whose positions are asked for are parsed again.
  let root: Node | null | undefined;
  const find = (path: Path, wantKey: boolean): Position => {
    if (root === undefined) root = tooDeepAt === null ? ((compose(text, new LineCounter()).parsed?.contents ?? null) as Node | null) : null;
    return positionOf(root, path, locate, wantKey);
  };
  return { document: { file, value, at: (path) => find(path, false), atKey: (path) => find(path, true) }, problems };
}

/** The first document of the text. Parsing stops where the nesting passes `deepest`, before anything recurses into it. */
function compose(text: string, lines: LineCounter): { readonly parsed: Document.Parsed | null; readonly tooDeepAt: number | null } {
  const parser = new Parser(lines.addNewLine);
  let tooDeepAt: number | null = null;
  lines.addNewLine(0);
  function* tokens() {
    for (const lexeme of new Lexer().lex(text)) {
      yield* parser.next(lexeme);
      if (parser.stack.length > deepest) {
        tooDeepAt = parser.offset;
        return;
      }
    }
    yield* parser.end();
  }
  // Keys are compared in `nodeFaults`: the package does it in quadratic time.
  const composer = new Composer({ lineCounter: lines, prettyErrors: false, uniqueKeys: false, stringKeys: true, version: '1.2' });
  const documents = composer.compose(tokens(), true, text.length);
  let first: Document.Parsed | null = null;
  for (const document of documents) {
    if (first === null) {
      first = document as Document.Parsed;
      continue;
    }
    first.errors.push(
      Object.assign(new Error('multiple documents'), {
        name: 'YAMLParseError',
        code: 'MULTIPLE_DOCS',
        pos: document.range.slice(0, 2),
      }) as never,
    );
    break;
  }
  return { parsed: first, tooDeepAt };
}

function positionOf(root: Node | null, path: Path, locate: Locate, wantKey: boolean): Position {
  let node: unknown = root;
  let position = rangeOf(root, locate);
  if (root && isCollection(root)) position = { ...position, length: 1 };
  for (const [depth, key] of path.entries()) {
    let next: unknown;
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(key));
      if (!pair) return position;
      const keyNode = pair.key as Node;
      position = rangeOf(keyNode, locate);
      if (wantKey && depth === path.length - 1) return position;
      next = pair.value;
      if (isScalar(next) && next.range && next.range[1] > next.range[0]) position = rangeOf(next as Node, locate);
    } else if (isSeq(node)) {
      next = node.items[Number(key)];
      if (next === undefined) return position;
      position = rangeOf(next as Node, locate);
    } else return position;
    node = next;
  }
  return position;
}
