/** Playing a policy on a car whose fault is known: what it does, what that costs, and whether it gets there. */
import { checkRow } from './belief/index.ts';
import type { Formulation } from './formulate.ts';
import type { Knowledge } from './knowledge.ts';
import type { PolicyNode } from './plan/index.ts';

export interface PlayedStep {
  readonly kind: 'check' | 'repair' | 'hand-over';
  /** Check id, cause id of the repair, or `hand-over`. */
  readonly id: string;
  /** Outcome id of a check, `fixed` or `not-fixed` of a repair, null for handing over. */
  readonly result: string | null;
  readonly cost: number;
}

export interface Playthrough {
  readonly steps: readonly PlayedStep[];
  readonly cost: number;
  /** Whether a repair of the job removed the fault; false when it was handed over. */
  readonly fixed: boolean;
}

/**
 * Follows `policy` with the fault `truth`. A check shows what `answers` says for it, else the outcome that is likeliest under
 * the truth while it is there to be seen. A repair removes the fault when it does so more often than not.
 */
export function playThrough(
  formulation: Formulation,
  policy: PolicyNode,
  truth: string,
  answers: Readonly<Record<string, string>>,
  knowledge: Knowledge,
): Playthrough {
  const hypothesis = formulation.hypotheses.findIndex(({ cause, hidden }) => cause === truth && !hidden);
  const steps: PlayedStep[] = [];
  let node: PolicyNode | null = policy;
  let cost = 0;
  while (node) {
    cost += node.cost;
    if (node.kind === 'hand-over') {
      steps.push({ kind: 'hand-over', id: 'hand-over', result: null, cost: node.cost });
      return { steps, cost, fixed: false };
    }
    if (node.kind === 'repair') {
      const fixed = hypothesis >= 0 && (formulation.model.repairs[node.action]!.fixes[hypothesis] ?? 0) > 0.5;
      steps.push({ kind: 'repair', id: formulation.repairIds[node.action]!, result: fixed ? 'fixed' : 'not-fixed', cost: node.cost });
      if (fixed) return { steps, cost, fixed };
      node = node.next;
      continue;
    }
    const id: string = formulation.checkIds[node.action]!;
    const outcome = shownOutcome(id, truth, answers, knowledge);
    steps.push({ kind: 'check', id, result: knowledge.checks[id]!.outcomes[outcome]!.id, cost: node.cost });
    node = node.next[outcome] ?? null;
  }
  return { steps, cost, fixed: false };
}

function shownOutcome(check: string, truth: string, answers: Readonly<Record<string, string>>, knowledge: Knowledge): number {
  const outcomes = knowledge.checks[check]!.outcomes;
  const told = outcomes.findIndex((outcome) => outcome.id === answers[check]);
  if (told >= 0) return told;
  const row = checkRow(check, truth, false, knowledge);
  return row.indexOf(Math.max(...row));
}
