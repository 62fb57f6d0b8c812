/** The compiled knowledge as JSON for others to use, with the schema that it keeps to. */
import type { Case } from '../engine/case.ts';
import type { Formulation } from '../engine/formulate.ts';
import { stepsAlong } from '../engine/steps.ts';
import type { Catalogue } from './catalogue.ts';
import { type Order, spineOf } from './order.ts';

/** Raised when a field changes its meaning or goes; new fields do not raise it. */
export const exportVersion = 1;
const licence = 'CC-BY-4.0';

const round = (value: number, digits: number): number => Number(value.toFixed(digits));

/** All numbers that the engine reads. */
export const knowledgeExport = ({ knowledge }: Catalogue) => ({
  schema: '/data/knowledge.schema.json',
  version: exportVersion,
  licence,
  knowledge,
});

/** One family: its tree as written, and the facts of its causes and checks. */
export function familyExport({ content, knowledge, links }: Catalogue, id: string) {
  const facts = knowledge.families[id]!;
  const checks = [...links.familiesOfCheck].filter(([, families]) => families.includes(id)).map(([check]) => check);
  const pick = <Facts>(table: Readonly<Record<string, Facts>>, ids: readonly string[]) =>
    Object.fromEntries(ids.map((key) => [key, table[key]!]));
  return {
    schema: '/data/family.schema.json',
    version: exportVersion,
    licence,
    family: facts,
    tree: content.families.get(id)!.tree,
    codes: pick(knowledge.codes, [...(links.codesOfFamily.get(id) ?? [])]),
    causes: pick(knowledge.causes, Object.keys(facts.shares)),
    checks: pick(knowledge.checks, checks),
  };
}

/** The computed order of one code. */
export function orderExport({ knowledge }: Catalogue, code: string, situation: Case, formulation: Formulation, order: Order) {
  return {
    schema: '/data/order.schema.json',
    version: exportVersion,
    licence,
    code,
    case: situation,
    causes: formulation.belief.causes.map(({ id, probability }) => ({ id: id ?? 'none-of-these', probability: round(probability, 6) })),
    steps: stepsAlong(formulation, spineOf(order), knowledge).map((step) => ({
      kind: step.kind,
      id: step.id,
      title: step.title,
      settles: round(step.settles, 5),
      attendedMinutes: round(step.attendedMinutes, 1),
      waitingMinutes: round(step.waitingMinutes, 1),
      money: round(step.money, 2),
      cumulativeChance: round(step.cumulativeChance, 5),
      cumulativeCost: round(step.cumulativeCost, 2),
    })),
    expectedCost: round(order.expectedCost, 4),
    lowerBound: round(order.lowerBound, 4),
    gap: round(order.gap, 6),
    orders: order.orders.map((other) => ({
      strategy: other.strategy,
      expectedCost: round(other.expectedCost, 4),
      chanceSolved: round(other.summary.solved, 5),
    })),
  };
}
