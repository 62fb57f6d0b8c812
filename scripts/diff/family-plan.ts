/** What a family's default job looks like under one state of the knowledge. */
import { type Answer, answer } from '../../src/engine/answer.ts';
import { formulate } from '../../src/engine/formulate.ts';
import type { Knowledge } from '../../src/engine/knowledge.ts';
import { type Budget, chanceSolvedBy, robustness } from '../../src/engine/plan/index.ts';
import { plainestCode } from '../../src/model/plainest-code.ts';

/** Spends at which a reviewer reads the chance that the fault is gone, in the currency of the content. */
export const spends = [25, 50, 100, 200, 400] as const;

/** Samples of the priors and likelihoods, and how many seen cases the stated ones are held to be worth. */
const doubts = { samples: 12, priorStrength: 30, likelihoodStrength: 30, start: 1, budget: { nodes: 1 } } as const;

export interface FamilyPlan {
  readonly title: string;
  /** The code whose job is planned: the one that says least beyond its family. */
  readonly code: string;
  readonly steps: readonly string[];
  readonly causes: ReadonlyMap<string, number>;
  readonly expectedCost: number;
  readonly gap: number;
  /** Chance solved at each of `spends`. */
  readonly solvedAt: readonly number[];
  /** Share of sampled opinions under which the first step stays first. */
  readonly firstStays: number;
}

/** Everything that a family's plan is computed from, as text: equal texts give equal plans. Null when no code leads to it. */
export function planInput(family: string, knowledge: Knowledge): string | null {
  const code = plainestCode(family, knowledge);
  if (!knowledge.families[family] || !code) return null;
  const { model, hypotheses, checkIds, repairIds, setUpIds } = formulate({ codes: [code] }, knowledge);
  return JSON.stringify({ code, model, hypotheses, checkIds, repairIds, setUpIds });
}

export function familyPlan(family: string, knowledge: Knowledge, budget: Budget): FamilyPlan | null {
  const code = plainestCode(family, knowledge);
  const facts = knowledge.families[family];
  if (!facts || !code) return null;
  const found: Answer = answer({ codes: [code] }, knowledge, budget);
  const computed = found.comparison.find(({ strategy }) => strategy === 'computed')!;
  return {
    title: facts.title,
    code,
    steps: found.steps.map((step) => `${step.kind === 'repair' ? 'Repair: ' : ''}${step.title}`),
    causes: new Map(found.formulation.belief.causes.flatMap(({ id, probability }) => (id === null ? [] : [[id, probability] as const]))),
    expectedCost: found.plan.expectedCost,
    gap: found.plan.gap,
    solvedAt: spends.map((spend) => chanceSolvedBy(computed.distribution, spend)),
    firstStays: robustness(found.formulation.model, found.plan.policy, doubts).firstStays,
  };
}
