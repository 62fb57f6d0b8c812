/** An answer -> JSON for tools and text for the terminal. */
import type { Answer } from '../engine/answer.ts';
import type { Knowledge } from '../engine/knowledge.ts';
import type { Strategy } from '../engine/plan/index.ts';
import { rareSteps } from './rare-steps.ts';

export const strategyTitles: Readonly<Record<Strategy, string>> = {
  computed: 'computed order',
  'cheapest-first': 'cheapest first',
  'likeliest-first': 'likeliest first',
  'replace-by-likelihood': 'replace parts by likelihood',
  'hand-over-at-once': 'hand over at once',
};

const round = (value: number, digits: number): number => Number(value.toFixed(digits));

export interface PlanJson {
  readonly causes: readonly { readonly id: string; readonly title: string; readonly probability: number }[];
  readonly steps: readonly {
    readonly kind: string;
    readonly id: string;
    readonly title: string;
    readonly settles: number;
    readonly minutes: number;
    readonly money: number;
    readonly cumulative: number;
  }[];
  readonly expectedCost: number;
  readonly lowerBound: number;
  readonly gap: number;
  readonly comparisons: Readonly<
    Record<
      string,
      {
        readonly expectedCost: number;
        readonly chanceSolved: number;
        readonly medianCost: number;
        readonly ninetiethPercentileCost: number;
      }
    >
  >;
  readonly codesWithoutTree: readonly string[];
}

/** The machine-readable answer. "None of these" has the id `none-of-these`. */
export function planJson(answer: Answer, knowledge: Knowledge, codesWithoutTree: readonly string[]): PlanJson {
  return {
    causes: answer.formulation.belief.causes.map(({ id, probability }) => ({
      id: id ?? 'none-of-these',
      title: id === null ? 'None of these' : knowledge.causes[id]!.title,
      probability: round(probability, 6),
    })),
    steps: answer.steps.map((step) => ({
      kind: step.kind,
      id: step.id,
      title: step.title,
      settles: round(step.settles, 4),
      minutes: round(step.attendedMinutes, 1),
      money: round(step.money, 2),
      cumulative: round(step.cumulativeChance, 4),
    })),
    expectedCost: round(answer.plan.expectedCost, 4),
    lowerBound: round(answer.plan.lowerBound, 4),
    gap: round(answer.plan.gap, 6),
    comparisons: Object.fromEntries(
      answer.comparison.map((result) => [
        result.strategy,
        {
          expectedCost: round(result.expectedCost, 4),
          chanceSolved: round(result.summary.solved, 4),
          medianCost: round(result.summary.median, 2),
          ninetiethPercentileCost: round(result.summary.ninetiethPercentile, 2),
        },
      ]),
    ),
    codesWithoutTree,
  };
}

const percent = (chance: number): string => `${(100 * chance).toFixed(1)} %`;

/** The order as a table for the terminal, with the other orders under it. */
export function planText(answer: Answer, knowledge: Knowledge): string {
  const [rareFrom, lastFrom] = rareSteps(answer.steps);
  const allRows = answer.steps.map((step, index) => [
    `${index + 1}`,
    step.kind === 'check' ? 'check' : step.kind === 'repair' ? 'repair' : 'hand over',
    step.title,
    percent(step.settles),
    `${Math.round(step.attendedMinutes)} min`,
    `$${Math.round(step.money)}`,
    percent(step.cumulativeChance),
  ]);
  const rare = answer.steps.slice(rareFrom, lastFrom);
  const folded = [
    '',
    '',
    `${rare.length} rarer steps (--json lists them)`,
    percent(rare.reduce((sum, step) => sum + step.settles, 0)),
    '',
    '',
    '',
  ];
  const rows = [...allRows.slice(0, rareFrom), ...(rare.length > 0 ? [folded] : []), ...allRows.slice(lastFrom)];
  const causes = answer.formulation.belief.causes
    .slice(0, 8)
    .map(({ id, probability }) => `  ${percent(probability).padStart(7)}  ${id === null ? 'None of these' : knowledge.causes[id]!.title}`);
  const others = answer.comparison.map(
    (result) =>
      `  ${`$${result.expectedCost.toFixed(0)}`.padStart(7)}  ${strategyTitles[result.strategy]} (solved without handing over: ${percent(result.summary.solved)})`,
  );
  return [
    'Likeliest causes',
    ...causes,
    '',
    'Order while nothing is found (each step: chance that it settles the matter, cost of the step, chance so far)',
    table(['', 'what', 'step', 'settles', 'attended', 'money', 'so far'], rows),
    '',
    `Expected total cost $${answer.plan.expectedCost.toFixed(2)}; no plan can cost less than $${answer.plan.lowerBound.toFixed(2)} (gap ${percent(answer.plan.gap)}).`,
    'Beside other orders, expected total:',
    ...others,
  ].join('\n');
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column]!.length)));
  const right = new Set([0, 3, 4, 5, 6]);
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, column) => (right.has(column) ? cell.padStart(widths[column]!) : cell.padEnd(widths[column]!)))
      .join('  ')
      .trimEnd();
  return [line(head), ...rows.map(line)].map((text) => `  ${text}`).join('\n');
}
