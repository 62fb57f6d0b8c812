/** npm run audit: what the content holds and how good its plans are, a row a family. */
import { answer, defaultBudget } from '../src/engine/answer.ts';
import { robustness } from '../src/engine/plan/index.ts';
import { playThrough } from '../src/engine/playthrough.ts';
import { completeRow } from '../src/model/likelihood.ts';
import { plainestCode } from '../src/model/plainest-code.ts';
import { referencesIn } from '../src/model/references.ts';
import { schemas } from '../src/model/schema/index.ts';
import { leavesOf } from '../src/model/tree.ts';
import { knowledgeOrExit } from './content/knowledge.ts';

const { content, knowledge } = knowledgeOrExit();
const families = process.argv.slice(2).filter((name) => knowledge.families[name]);

/** Causes that a check of the knowledge can tell from the rest: these families' checks count. */
function checksFor(causes: ReadonlySet<string>): number {
  return [...content.checks.values()].filter((check) => {
    const outcomes = check.outcomes.map((outcome) => outcome.id);
    const base = completeRow(outcomes, check.otherwise, null);
    return Object.entries(check.likelihood).some(
      ([cause, row]) =>
        causes.has(cause) && completeRow(outcomes, row, base).some((chance, index) => Math.abs(chance - base[index]!) > 0.02),
    );
  }).length;
}

const percent = (value: number) => `${(100 * value).toFixed(1)} %`;
const rows: string[][] = [['family', 'causes', 'checks', 'cost', 'gap', 'reached', 'first stays', 'first three stay', 'worst reached']];
for (const [id, family] of [...content.families].sort(([a], [b]) => (a < b ? -1 : 1))) {
  if (families.length > 0 && !families.includes(id)) continue;
  // The family as a whole: its first code without the code's own evidence would shift it, so the plainest code stands for it.
  const code = plainestCode(id, knowledge);
  if (!code) continue;
  const found = answer({ codes: [code] }, knowledge, defaultBudget);
  const computed = found.comparison[0]!;
  const firm = robustness(found.formulation.model, found.plan.policy, {
    samples: 20,
    priorStrength: 20,
    likelihoodStrength: 20,
    start: 1,
    budget: { nodes: 200 },
  });
  const causes = new Set(leavesOf(family.tree).map((leaf) => leaf.cause));
  const worst = found.formulation.belief.causes
    .filter(({ id: cause, probability }) => cause !== null && probability >= 0.01)
    .map(({ id: cause }) => ({ cause: cause!, run: playThrough(found.formulation, found.plan.policy, cause!, {}, knowledge) }))
    .filter(({ run }) => !run.fixed)
    .slice(0, 4)
    .map(({ cause }) => cause);
  rows.push([
    `${id} (${code})`,
    `${causes.size}`,
    `${checksFor(causes)}`,
    `$${found.plan.expectedCost.toFixed(0)}`,
    percent(found.plan.gap),
    percent(computed.summary.solved),
    percent(firm.firstStays),
    percent(firm.firstThreeStay),
    worst.join(', ') || '-',
  ]);
}
const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
for (const row of rows)
  console.log(
    row.map((cell, column) => (column === 0 || column === 8 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!))).join('  '),
  );

const sourced = [...content.causes, ...content.checks]
  .flatMap(([, file]) => referencesIn('repair' in file ? schemas.causes : schemas.checks, file))
  .filter((reference) => reference.kind === 'sources');
const bySource = Map.groupBy(sourced, (reference) => reference.id);
console.log(
  `\n${content.causes.size} causes, ${content.checks.size} checks, ${Object.keys(knowledge.codes).length} codes, ${content.symptoms.size} symptoms.`,
);
console.log(
  `Sources of numbers in causes and checks: ${[...bySource]
    .sort((a, b) => b[1].length - a[1].length)
    .map(([id, list]) => `${id} ${list.length}`)
    .join(', ')}.`,
);
