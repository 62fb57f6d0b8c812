/** The comparison as Markdown for a reviewer: fits a comment on a pull request. Pure: equal input, equal text. */
import type { ChangedNumber } from './changed-numbers.ts';
import { type FamilyPlan, spends } from './family-plan.ts';

export interface FamilyMove {
  readonly family: string;
  /** Null where the family is new, gone, or reached by no code. */
  readonly before: FamilyPlan | null;
  readonly after: FamilyPlan | null;
}

export interface Review {
  readonly base: string;
  readonly moves: readonly FamilyMove[];
  readonly numbers: readonly ChangedNumber[];
  readonly newFiles: readonly string[];
  readonly lostFiles: readonly string[];
}

const listedAtMost = 60;
/** Characters that a comment on a pull request may have are 65,536; some are left for whoever posts it. */
const longestComment = 60_000;

export function reviewMarkdown({ base, moves, numbers, newFiles, lostFiles }: Review): string {
  const moved = moves.length === 0 ? 'nothing moved' : moves.length === 1 ? 'one family moved' : `${moves.length} families moved`;
  const head = [
    `## Against ${cell(base)}: ${moved}`,
    ...(moves.length === 0 ? ['Nothing moved.'] : moves.length > 1 ? [overview(moves)] : []),
  ];
  const tail = [
    ...numbersPart(numbers),
    ...listPart(
      'New files',
      newFiles.map((path) => `\`${path}\``),
    ),
    ...listPart(
      'Lost files',
      lostFiles.map((path) => `\`${path}\``),
    ),
  ];
  // Families in full as long as the whole fits a comment; the overview names the rest.
  let room = longestComment - [...head, ...tail].join('\n\n').length;
  const families: string[] = [];
  for (const move of moves) {
    const part = familyPart(move);
    room -= part.length + 2;
    if (room >= 0) families.push(part);
  }
  const left = moves.length - families.length;
  if (left > 0)
    families.push(
      `${left === 1 ? 'One more family' : `${left} more families`} moved; run the command for one change at a time to see all in full.`,
    );
  return `${[...head, ...families, ...tail].join('\n\n')}\n`;
}

/** One line a family: what it costs and what comes first. */
function overview(moves: readonly FamilyMove[]): string {
  const dollars = (plan: FamilyPlan | null) => (plan ? `$${plan.expectedCost.toFixed(2)}` : '');
  const rows = moves.map(({ before, after }) => [
    cell((after ?? before)!.title),
    dollars(before),
    dollars(after),
    cell(before?.steps[0] ?? ''),
    before?.steps[0] === after?.steps[0] ? '=' : cell(after?.steps[0] ?? ''),
  ]);
  return table(['family', 'cost before', 'cost after', 'first step before', 'first step after'], rows);
}

function familyPart({ before, after }: FamilyMove): string {
  const title = (after ?? before)!.title;
  const state = before === null ? ' (new)' : after === null ? ' (gone)' : '';
  const code = (after ?? before)!.code;
  return [`### ${cell(title)}, ${code}${state}`, orderTable(before, after), figureTable(before, after), ...causeLines(before, after)].join(
    '\n\n',
  );
}

function orderTable(before: FamilyPlan | null, after: FamilyPlan | null): string {
  const [was, is] = [before?.steps ?? [], after?.steps ?? []];
  const rows = Array.from({ length: Math.max(was.length, is.length) }, (_, index) => {
    const step = is[index];
    const earlier = step === undefined ? -1 : was.indexOf(step);
    const move = step === undefined || before === null ? '' : earlier < 0 ? 'new' : earlier === index ? '' : `from ${earlier + 1}`;
    const gone = was[index] !== undefined && after !== null && !is.includes(was[index]!) ? ' (leaves)' : '';
    return [`${index + 1}`, `${cell(was[index] ?? '')}${gone}`, cell(step ?? ''), move];
  });
  return table(['', 'order before', 'order after', ''], rows);
}

function figureTable(before: FamilyPlan | null, after: FamilyPlan | null): string {
  const row = (name: string, pick: (plan: FamilyPlan) => number, write: (value: number) => string, change: (by: number) => string) => [
    name,
    before ? write(pick(before)) : '',
    after ? write(pick(after)) : '',
    before && after ? change(pick(after) - pick(before)) : '',
  ];
  const dollars = (value: number) => `$${value.toFixed(2)}`;
  const percent = (value: number) => `${(100 * value).toFixed(1)} %`;
  const signed = (write: (value: number) => string) => (by: number) =>
    write(Math.abs(by)) === write(0) ? '=' : `${by > 0 ? '+' : '−'}${write(Math.abs(by))}`;
  return table(
    ['', 'before', 'after', 'change'],
    [
      row('expected total cost', (plan) => plan.expectedCost, dollars, signed(dollars)),
      ...spends.map((spend, index) => row(`solved for at most $${spend}`, (plan) => plan.solvedAt[index]!, percent, signed(percent))),
      row('proven gap', (plan) => plan.gap, percent, signed(percent)),
      row('first step stays first under doubt', (plan) => plan.firstStays, percent, signed(percent)),
    ],
  );
}

function causeLines(before: FamilyPlan | null, after: FamilyPlan | null): string[] {
  if (!before || !after) return [];
  const [was, is] = [before.causes, after.causes];
  const list = (ids: string[]) => ids.map((id) => `\`${id}\``).join(', ');
  const gained = [...is.keys()].filter((id) => !was.has(id)).sort();
  const lost = [...was.keys()].filter((id) => !is.has(id)).sort();
  return [...(gained.length ? [`New causes: ${list(gained)}.`] : []), ...(lost.length ? [`Lost causes: ${list(lost)}.`] : [])];
}

function numbersPart(numbers: readonly ChangedNumber[]): string[] {
  if (numbers.length === 0) return [];
  const rows = numbers
    .slice(0, listedAtMost)
    .map(({ file, place, before, after, source }) => [`\`${file}\``, cell(place), before ?? '', after ?? '', cell(source)]);
  const more = numbers.length > listedAtMost ? [`And ${numbers.length - listedAtMost} more.`] : [];
  return ['### Changed numbers', table(['file', 'number', 'before', 'after', 'source'], rows), ...more];
}

function listPart(title: string, lines: readonly string[]): string[] {
  if (lines.length === 0) return [];
  const more = lines.length > listedAtMost ? [`- and ${lines.length - listedAtMost} more`] : [];
  return [`### ${title}`, [...lines.slice(0, listedAtMost).map((line) => `- ${line}`), ...more].join('\n')];
}

const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');

/** Text of a stranger's file in a table of Markdown: no cell can end the table, call a person or become markup. */
const cell = (text: string): string => text.replaceAll(/[\r\n]+/g, ' ').replaceAll(/[\\`*_{}[\]<>()#+!|@~]/g, (mark) => `\\${mark}`);
