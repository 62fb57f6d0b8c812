/** YAML text -> plain value with positions, or problems. The one place that knows the `yaml` package. */
import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isPair,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type ParsedNode,
  parseDocument,
  visit,
} from 'yaml';
import type { ContentFile, Position, Problem } from './problem.ts';
import type { ProblemCode } from './problem-codes.ts';

export type Path = readonly (string | number)[];

export interface YamlDocument {
  readonly file: ContentFile;
  readonly value: unknown;
  /** Position of the value at `path`, or of the deepest part of the path that exists. */
  readonly at: (path: Path) => Position;
  /** Position of the key at the end of `path`. */
  readonly atKey: (path: Path) => Position;
}

const start: Position = { line: 1, column: 1, length: 1 };

/** Reads one file. A document with any problem of severity error has value undefined. */
export function readDocument(file: ContentFile): { readonly document: YamlDocument; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const report = (code: ProblemCode, position: Position, what: string, mend: string) =>
    problems.push({ code, severity: 'error', file: file.path, ...position, what, mend });

  let text = file.text;
  if (text.startsWith('\uFEFF')) {
    report('yaml-byte-order-mark', start, 'The file starts with a byte-order mark.', 'Save it as UTF-8 without a byte-order mark.');
    text = text.slice(1);
  }
  if (text.includes('\r')) {
    const line = text.slice(0, text.indexOf('\r')).split('\n').length;
    report(
      'yaml-line-ends',
      { ...start, line },
      'The file has carriage returns.',
      'Save it with line feeds (LF) only, or run `npm run format`.',
    );
    text = text.replaceAll('\r\n', '\n').replaceAll('\r', '\n');
  }

  const lineCounter = new LineCounter();
  const parsed = parseDocument(text, {
    lineCounter,
    uniqueKeys: true,
    prettyErrors: false,
    merge: false,
    version: '1.2',
    stringKeys: false,
  });
  const locate = (from: number, to = from + 1): Position => {
    const { line, col } = lineCounter.linePos(from);
    const lineEnd = text.indexOf('\n', from) < 0 ? text.length : text.indexOf('\n', from);
    return { line, column: col, length: Math.max(1, Math.min(to, lineEnd) - from) };
  };

  for (const error of [...parsed.errors, ...parsed.warnings]) {
    const position = locate(error.pos[0], error.pos[1]);
    if (error.code === 'DUPLICATE_KEY') {
      report(
        'yaml-duplicate-key',
        position,
        `The key ${JSON.stringify(wordAt(text, error.pos[0]))} stands twice in one map.`,
        'Keep one of them.',
      );
    } else if (error.code === 'TAB_AS_INDENT' || text.split('\n')[position.line - 1]?.match(/^ *\t/)) {
      report('yaml-tab', position, 'The line is indented with a tab.', 'Indent with two spaces.');
    } else {
      report('yaml-syntax', position, `YAML cannot read this: ${firstSentence(error.message)}`, syntaxMend(error.message));
    }
  }
  visit(parsed as Document, (_key, node) => {
    if (isAlias(node) || (!isPair(node) && 'anchor' in (node as object) && (node as { anchor?: string }).anchor)) {
      report(
        'yaml-alias',
        rangeOf(node as Node, locate),
        'Anchors (&name) and aliases (*name) are not used in content.',
        'Write the value out where it is needed.',
      );
    }
    if (isPair(node) && isScalar(node.key) && typeof node.key.value === 'string') {
      if (['__proto__', 'constructor', 'prototype', 'hasOwnProperty', 'toString'].includes(node.key.value)) {
        report('yaml-reserved-key', rangeOf(node.key as Node, locate), `The key ${node.key.value} is reserved.`, 'Choose another key.');
      }
      if (node.key.value === '<<') {
        report(
          'yaml-alias',
          rangeOf(node.key as Node, locate),
          'Merge keys (<<) are not used in content.',
          'Write the fields out where they are needed.',
        );
      }
    }
    return undefined;
  });

  // Aliases are refused above before anything expands them; a document with errors has no value.
  const value = problems.some((problem) => problem.code !== 'yaml-line-ends' && problem.code !== 'yaml-byte-order-mark')
    ? undefined
    : parsed.toJS({ maxAliasCount: 0 });
  return {
    document: {
      file,
      value,
      at: (path) => positionOf(parsed.contents, path, locate, false),
      atKey: (path) => positionOf(parsed.contents, path, locate, true),
    },
    problems,
  };
}

type Locate = (from: number, to?: number) => Position;

const rangeOf = (node: { range?: readonly [number, number, number] | null | undefined } | null, locate: Locate): Position =>
  node?.range ? locate(node.range[0], node.range[1]) : start;

function positionOf(root: ParsedNode | null, path: Path, locate: Locate, wantKey: boolean): Position {
  let node: unknown = root;
  let position = rangeOf(root as Node, locate);
  if (root && isCollection(root)) position = { ...position, length: 1 };
  for (const [depth, key] of path.entries()) {
    let next: unknown;
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(key));
      if (!pair) return position;
      const keyNode = pair.key as unknown as Node;
      position = rangeOf(keyNode, locate);
      if (wantKey && depth === path.length - 1) return position;
      next = pair.value;
      if (isScalar(next)) position = rangeOf(next as Node, locate);
    } else if (isSeq(node)) {
      next = node.items[Number(key)];
      if (next === undefined) return position;
      position = rangeOf(next as Node, locate);
    } else return position;
    node = next;
  }
  return position;
}

const wordAt = (text: string, offset: number): string => text.slice(offset).match(/^["']?([^"':\n]+)/)?.[1] ?? '';
const firstSentence = (message: string): string => {
  const line = message.split('\n')[0] ?? message;
  return line.endsWith('.') ? line : `${line}.`;
};
function syntaxMend(message: string): string {
  if (/flow|bracket|brace/i.test(message)) return 'Close the bracket or brace that was opened.';
  if (/quote/i.test(message)) return 'Close the quotation mark, or quote the whole text.';
  if (/implicit|compact mappings|Nested mappings/i.test(message))
    return 'Put text that contains ": " into quotation marks, or use a block with ">-".';
  if (/indent/i.test(message)) return 'Line it up with its siblings; indent by two spaces.';
  return 'Compare with the template of this kind of file, or quote the text.';
}
