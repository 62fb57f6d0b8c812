/** The three answers of the planner, each with its size for a browser. */
import { belief } from '../../engine/belief/index.ts';
import type { Case } from '../../engine/case.ts';
import { type Formulation, formulate } from '../../engine/formulate.ts';
import type { Knowledge } from '../../engine/knowledge.ts';
import { focused } from './focus.ts';
import { narrowed } from './narrow.ts';
import { type OtherOrder, otherOrders, outlookOf, type Planned } from './outlook.ts';
import { type Proposal, proposals } from './proposal.ts';
import { leastCost, quickPlan } from './quick-plan.ts';

/** Things to do next that the page offers. */
const offered = 8;
/** What one look ahead looks at. */
export const rankSize = { checks: 40, leastProbability: 0.004 } as const;
/** What a plan looks at in a browser, and how many decisions it holds. */
export const planSize = { checks: 24, leastProbability: 0.005 } as const;
export const planNodes = 1000;
/** Comparing follows five whole policies, so it looks at less. */
export const compareSize = { checks: 14, leastProbability: 0.01 } as const;
const compareNodes = 300;

/** The problem of a situation with its most promising checks, and the best things to do next by one look ahead. */
export function rankNow(
  situation: Case,
  knowledge: Knowledge,
): { readonly formulation: Formulation; readonly proposals: readonly Proposal[] } {
  const now = belief(situation, knowledge);
  const formulation = focused(formulate(situation, narrowed(situation, knowledge, now, rankSize.checks), now), rankSize);
  return { formulation, proposals: proposals(formulation, knowledge, offered) };
}

export function planNow(formulation: Formulation, knowledge: Knowledge, enough?: () => boolean): Planned {
  const narrow = focused(formulation, planSize);
  return outlookOf(narrow, knowledge, quickPlan(narrow.model, planNodes, enough), leastCost(formulation.model));
}

/** As `planNow`, improved state by state: takes a second or so, and is often some percent cheaper. */
export async function planLonger(formulation: Formulation, knowledge: Knowledge): Promise<Planned> {
  const { carefulPlan } = await import('./careful-plan.ts');
  const narrow = focused(formulation, planSize);
  return outlookOf(narrow, knowledge, carefulPlan(narrow.model), leastCost(formulation.model));
}

export function compareNow(formulation: Formulation): readonly OtherOrder[] {
  const narrow = focused(formulation, compareSize);
  return otherOrders(narrow, quickPlan(narrow.model, compareNodes).node);
}
