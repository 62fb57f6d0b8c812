/** The refined answer: a whole plan from here, what follows each result, and the same job done in other orders. */
import type { Formulation } from '../../engine/formulate.ts';
import type { Knowledge } from '../../engine/knowledge.ts';
import type { CostedPolicy } from '../../engine/plan/greedy.ts';
import { comparePolicyWith, type Ending, explain, type PolicyNode, type StepReason, type Strategy } from '../../engine/plan/index.ts';
import { type Step, stepsOf } from '../../engine/steps.ts';

export interface NextAction {
  readonly kind: 'check' | 'repair' | 'hand-over';
  readonly id: string;
}

export interface Outlook {
  readonly first: NextAction;
  /** After each outcome of the first step, when it is a check. */
  readonly after: Readonly<Record<string, NextAction | null>>;
  readonly expectedCost: number;
  /** Proven: no order costs less. Loose, because it is what someone would pay who knew the cause. */
  readonly leastCost: number;
  /** What to do while everything comes back good. */
  readonly steps: readonly Step[];
  readonly reasons: readonly StepReason[];
}

export interface OtherOrder {
  readonly strategy: Strategy;
  readonly expectedCost: number;
  readonly solved: number;
  readonly median: number;
  /** Chance solved for at most this cost: a rising staircase. */
  readonly curve: readonly (readonly [cost: number, chance: number])[];
}

export interface Planned {
  readonly outlook: Outlook;
  readonly policy: PolicyNode;
}

/** `least` is the proven least cost of the whole problem, of which the formulation may be a part. */
export function outlookOf(formulation: Formulation, knowledge: Knowledge, found: CostedPolicy, least: number): Planned {
  const { model } = formulation;
  const action = (node: PolicyNode): NextAction =>
    node.kind === 'hand-over'
      ? { kind: 'hand-over', id: 'hand-over' }
      : { kind: node.kind, id: (node.kind === 'check' ? formulation.checkIds : formulation.repairIds)[node.action]! };
  const root = found.node;
  const first = action(root);
  const after =
    root.kind === 'check'
      ? Object.fromEntries(
          knowledge.checks[first.id]!.outcomes.map(({ id }, index) => [id, root.next[index] ? action(root.next[index]) : null]),
        )
      : {};
  return {
    policy: root,
    outlook: {
      first,
      after,
      expectedCost: found.cost,
      leastCost: Math.min(least, found.cost),
      steps: stepsOf(formulation, root, knowledge),
      reasons: explain(model, root),
    },
  };
}

/** Rises too small to see are joined with the next. */
const leastRise = 0.004;

export function otherOrders(formulation: Formulation, policy: PolicyNode): readonly OtherOrder[] {
  return comparePolicyWith(formulation.model, policy).map(({ strategy, expectedCost, summary, distribution }) => ({
    strategy,
    expectedCost,
    solved: summary.solved,
    median: summary.median,
    curve: staircase(distribution),
  }));
}

function staircase(distribution: readonly Ending[]): OtherOrder['curve'] {
  const points: (readonly [number, number])[] = [[0, 0]];
  let chance = 0;
  for (const [index, ending] of distribution.entries()) {
    if (ending.solved) chance += ending.probability;
    const last = index === distribution.length - 1;
    if (chance - points.at(-1)![1] >= (last ? 1e-6 : leastRise)) points.push([ending.cost, chance]);
  }
  return points;
}
