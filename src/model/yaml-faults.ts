/** What YAML itself can have wrong, and what content does without: worded, at its place. */
import { type Document, isAlias, isMap, isNode, isPair, isScalar, type Scalar, visit, type YAMLMap } from 'yaml';
import type { Position } from './problem.ts';
import { quoted, unsafeIn } from './source-text.ts';
import { type Locate, type ReportYaml, rangeOf } from './yaml-position.ts';

const reservedKeys = new Set(['__proto__', 'constructor', 'prototype', 'hasOwnProperty', 'toString', 'valueOf']);

/** Errors of the parser. */
export function syntaxFaults(parsed: Document.Parsed, text: string, locate: Locate, report: ReportYaml): void {
  const lines = text.split('\n');
  const isTabbed = (line: number): boolean => /^ *\t/.test(lines[line - 1] ?? '');
  const toldOfTab = new Set<number>();
  for (const error of [...parsed.errors, ...parsed.warnings]) {
    // A line that a tab keeps from being a field of its own is read as more of the value before it: told there, nobody would find it.
    const continues = error.code.endsWith('_IMPLICIT_KEY') && isTabbed(locate(error.pos[0]).line + 1);
    const position = continues ? locate(text.indexOf('\n', error.pos[0]) + 1) : locate(error.pos[0], error.pos[1]);
    if (error.code === 'TAB_AS_INDENT' || isTabbed(position.line)) {
      if (toldOfTab.has(position.line)) continue;
      toldOfTab.add(position.line);
      report('yaml-tab', position, 'The line is indented with a tab.', 'Indent with two spaces.');
    } else if (error.code === 'TAG_RESOLVE_FAILED') report('yaml-tag', position, noTags, tagMend);
    else if (error.code === 'MULTIPLE_DOCS')
      report(
        'yaml-syntax',
        position,
        'A second document starts here.',
        'Delete the line "---", or move what follows into a file of its own.',
      );
    else if (error.code === 'NON_STRING_KEY')
      report('yaml-syntax', position, 'A key is not plain text.', 'Keys are words: delete the "?", the brackets or the mark before it.');
    else if (/^Missing closing .*quote/.test(error.message))
      report(
        'yaml-syntax',
        openingQuote(parsed, error.pos[0], locate) ?? position,
        'This quotation mark is not closed.',
        'Close it, or quote the whole text.',
      );
    else report('yaml-syntax', position, `YAML cannot read this: ${sentence(error.message)}`, syntaxMend(error.message));
  }
  const directive = text.match(/^(?:[ \t]*(?:#.*)?\n)*%/);
  if (directive) report('yaml-tag', locate(directive[0].length - 1), 'Content has no directives (%NAME).', 'Delete the line.');
}

/** Where the quoted text starts that runs on to `end`: there the mistake is, not where the file ran out. */
function openingQuote(parsed: Document, end: number, locate: Locate): Position | null {
  let from: number | null = null;
  visit(parsed, {
    Scalar: (_key, { type, range }) => {
      if (type?.startsWith('QUOTE') && range && range[0] <= end && end <= range[1] + 1) from = range[0];
    },
  });
  return from === null ? null : locate(from);
}

const noTags = 'Content has no tags (!name).';
const tagMend = 'Delete it; put text that starts with "!" into quotation marks.';

/** Anchors, aliases, merge keys, tags, reserved and doubled keys, and unsafe characters written as escapes. */
export function nodeFaults(parsed: Document, text: string, locate: Locate, report: ReportYaml): void {
  const unresolved = new Set(parsed.warnings.map((warning) => warning.pos[1]));
  visit(parsed, (_key, node) => {
    if (isMap(node)) doubledKeys(node, locate, report);
    if (isPair(node) && isScalar(node.key)) keyFaults(node.key, locate, report);
    if (!isNode(node)) return undefined;
    if (isAlias(node) || node.anchor)
      report(
        'yaml-alias',
        rangeOf(node, locate),
        'Anchors (&name) and aliases (*name) are not used in content.',
        'Write the value out where it is needed; put text that starts with "&" or "*" into quotation marks.',
      );
    // The parser has reported the tags that it does not know.
    const position = rangeOf(node, locate);
    if (node.tag && ![...unresolved].some((end) => locate(end).line === position.line)) report('yaml-tag', position, noTags, tagMend);
    if (isScalar(node)) escapeFaults(node, text, locate, report);
    return undefined;
  });
}

function doubledKeys(map: YAMLMap, locate: Locate, report: ReportYaml): void {
  const first = new Map<string, Scalar>();
  for (const { key } of map.items) {
    if (!isScalar(key)) continue;
    const name = String(key.value);
    const earlier = first.get(name);
    if (earlier)
      report(
        'yaml-duplicate-key',
        rangeOf(key, locate),
        `The key ${quoted(name)} stands twice in one map; first in line ${rangeOf(earlier, locate).line}.`,
        'Keep one of them.',
      );
    else first.set(name, key);
  }
}

function keyFaults(key: Scalar, locate: Locate, report: ReportYaml): void {
  if (typeof key.value !== 'string') return;
  if (reservedKeys.has(key.value))
    report('yaml-reserved-key', rangeOf(key, locate), `The key ${key.value} is reserved.`, 'Choose another key.');
  if (key.value === '<<')
    report('yaml-alias', rangeOf(key, locate), 'Merge keys (<<) are not used in content.', 'Write the fields out where they are needed.');
}

/** Characters that stand in the text as they are were reported with the text; these were written as escapes. */
function escapeFaults(scalar: Scalar, text: string, locate: Locate, report: ReportYaml): void {
  if (scalar.type !== 'QUOTE_DOUBLE' || typeof scalar.value !== 'string' || !scalar.range) return;
  const written = new Set(unsafeIn(text.slice(scalar.range[0], scalar.range[1])).map(({ name }) => name));
  const escaped = unsafeIn(scalar.value).find(({ name }) => !written.has(name));
  if (escaped)
    report('unsafe-text', rangeOf(scalar, locate), `An escape in this text makes the invisible character ${escaped.name}.`, 'Delete it.');
}

const sentence = (message: string): string => {
  const line = message.split('\n')[0] ?? message;
  return line.endsWith('.') ? line : `${line}.`;
};

function syntaxMend(message: string): string {
  if (/reserved character|cannot start with/i.test(message)) return 'Put the text into quotation marks.';
  if (/flow|bracket|brace/i.test(message)) return 'Close the bracket or brace that was opened.';
  if (/implicit|compact mappings|Nested mappings/i.test(message))
    return 'Put text that contains ": " into quotation marks, or use a block with ">-".';
  if (/escape/i.test(message)) return 'Write the backslash twice, or use single quotation marks.';
  if (/indent/i.test(message)) return 'Line it up with its siblings; indent by two spaces.';
  return 'Compare with the template of this kind of file, or quote the text.';
}
