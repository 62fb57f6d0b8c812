/** The three answers of the planner, each with its size for a browser. */
import type { Case } from '../../engine/case.ts';
import { type Formulation, formulate } from '../../engine/formulate.ts';
import type { Knowledge } from '../../engine/knowledge.ts';
import { focused } from './focus.ts';
import { type OtherOrder, otherOrders, outlookOf, type Planned } from './outlook.ts';
import { type Proposal, proposals } from './proposal.ts';

/** Things to do next that the page offers. */
const offered = 8;
/** What one look ahead looks at. */
export const rankSize = { checks: 48, leastProbability: 0.002 } as const;
/** What a plan looks at in a browser, and how long it searches. */
export const planSize = { checks: 24, leastProbability: 0.004 } as const;
export const planNodes = 8;
/** Comparing follows five whole policies, so it looks at less. */
export const compareSize = { checks: 14, leastProbability: 0.01 } as const;

export function rankNow(
  situation: Case,
  knowledge: Knowledge,
): { readonly formulation: Formulation; readonly proposals: readonly Proposal[] } {
  const formulation = formulate(situation, knowledge);
  return { formulation, proposals: proposals(focused(formulation, rankSize), knowledge, offered) };
}

export function planNow(formulation: Formulation, knowledge: Knowledge, stop?: () => boolean): Planned {
  const narrow = focused(formulation, planSize);
  return outlookOf(narrow, knowledge, { nodes: planNodes, ...(stop ? { stop } : {}) }, narrow === formulation);
}

export function compareNow(formulation: Formulation, knowledge: Knowledge): readonly OtherOrder[] {
  const narrow = focused(formulation, compareSize);
  return otherOrders(narrow, outlookOf(narrow, knowledge, { nodes: 29 }, false).policy);
}
