/** A policy's spine in the terms of the knowledge: ids, titles, minutes and money, with set-ups and tools where they are first paid. */
import type { Formulation } from './formulate.ts';
import type { Knowledge, Work } from './knowledge.ts';
import { type PolicyNode, type SpineStep, spine } from './plan/index.ts';

export interface Step {
  readonly kind: 'check' | 'repair' | 'hand-over';
  /** Check id, cause id of a repair, or `hand-over`. */
  readonly id: string;
  readonly title: string;
  /** Outcome with which the job goes on along the spine; null for repairs and handing over. */
  readonly goesOnWith: string | null;
  readonly attendedMinutes: number;
  readonly waitingMinutes: number;
  readonly money: number;
  /** Everything as one sum, as the planner counts it. */
  readonly cost: number;
  /** Set-ups (by id) and tools to be had (`tool:` id) first needed here. */
  readonly firstNeeds: readonly string[];
  /** Chance, seen from the start, that the job gets here. */
  readonly reach: number;
  /** Chance, seen from the start, that the fault is gone by what this step finds. */
  readonly settles: number;
  readonly cumulativeChance: number;
  /** Expected cost of the spine so far and of every branch that left it. */
  readonly cumulativeCost: number;
}

export const stepsOf = (formulation: Formulation, policy: PolicyNode, knowledge: Knowledge): readonly Step[] =>
  stepsAlong(formulation, spine(formulation.model, policy), knowledge);

/** As `stepsOf`, for a spine that is at hand already: walking all branches of a large policy takes its time. */
export function stepsAlong(formulation: Formulation, path: readonly SpineStep[], knowledge: Knowledge): readonly Step[] {
  const paid = new Set(formulation.model.setUpsDone);
  return path.map((step): Step => {
    const chances = {
      cost: step.cost,
      reach: step.reach,
      settles: step.settles,
      cumulativeChance: step.cumulativeChance,
      cumulativeCost: step.cumulativeCost,
    };
    if (step.kind === 'hand-over' || step.action === null)
      return {
        kind: 'hand-over',
        id: 'hand-over',
        title: 'Hand the car to a professional',
        goesOnWith: null,
        ...handOver(formulation, knowledge),
        firstNeeds: [],
        ...chances,
      };
    const { facts, setUps } = actionOf(formulation, knowledge, step);
    const first = setUps.filter((setUp) => !paid.has(setUp));
    for (const setUp of first) paid.add(setUp);
    const needs = first.map((setUp) => formulation.setUpIds[setUp]!);
    const extra = needs.map((id) => resourceWork(id, knowledge));
    const sum = (pick: (work: ResourceWork) => number, own: number) => extra.reduce((total, work) => total + pick(work), own);
    return {
      kind: step.kind,
      id: facts.id,
      title: facts.title,
      goesOnWith: step.kind === 'check' && step.outcome !== null ? knowledge.checks[facts.id]!.outcomes[step.outcome]!.id : null,
      attendedMinutes: sum((work) => work.attendedMinutes, facts.attendedMinutes),
      waitingMinutes: sum((work) => work.waitingMinutes, facts.waitingMinutes),
      money: sum((work) => work.money, facts.money),
      firstNeeds: needs,
      ...chances,
    };
  });
}

type ResourceWork = Pick<Work, 'attendedMinutes' | 'waitingMinutes' | 'money'>;

function resourceWork(id: string, knowledge: Knowledge): ResourceWork {
  const tool = id.startsWith('tool:') ? knowledge.tools[id.slice('tool:'.length)] : undefined;
  if (tool) return { attendedMinutes: 0, waitingMinutes: 0, money: tool.money };
  return knowledge.setUps[id] ?? { attendedMinutes: 0, waitingMinutes: 0, money: 0 };
}

function actionOf(formulation: Formulation, knowledge: Knowledge, step: SpineStep) {
  if (step.kind === 'check') {
    const id = formulation.checkIds[step.action!]!;
    return { facts: knowledge.checks[id]!, setUps: formulation.model.checks[step.action!]!.setUps };
  }
  const id = formulation.repairIds[step.action!]!;
  const repair = knowledge.causes[id]!.repair;
  return {
    facts: { ...repair, id, attendedMinutes: repair.attendedMinutes + repair.verifyMinutes },
    setUps: formulation.model.repairs[step.action!]!.setUps,
  };
}

function handOver(formulation: Formulation, knowledge: Knowledge): ResourceWork {
  const family = knowledge.families[formulation.belief.families[0] ?? ''];
  const attendedMinutes = family?.handOverAttendedMinutes ?? 60;
  return {
    attendedMinutes,
    waitingMinutes: 0,
    money: formulation.model.handOverCost - (attendedMinutes / 60) * formulation.rates.hourlyRate,
  };
}
