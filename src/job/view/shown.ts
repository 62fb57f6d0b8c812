/** Which step the page shows: the one picked, else the plan's, else what the plan foresaw, else the best by one look ahead. */

import type { NextAction } from '../planner/outlook.ts';
import type { Proposal } from '../planner/proposal.ts';
import type { Session } from '../session.ts';

export interface Shown extends NextAction {
  /** Null until the planner has reckoned it. */
  readonly proposal: Proposal | null;
  /** Chance, from here, that the fault is gone by what this step finds. Null until the plan is there, or off the plan. */
  readonly settles: number | null;
}

export function shownStep(session: Session, picked: string | null): Shown | null {
  const { planner } = session;
  const proposals = planner.proposals.value;
  const outlook = planner.outlook.value;
  const settled = planner.upToDate.value;
  const guess = planner.foreseen.value ?? (planner.impatient.value ? (proposals[0] ?? null) : null);
  // Until the plan is there the last card stays rather than a guess that may change under one's hands.
  const first = settled ? (outlook?.first ?? null) : (guess ?? outlook?.first ?? null);
  const wanted = picked === null ? null : (proposals.find((proposal) => `${proposal.kind} ${proposal.id}` === picked) ?? null);
  const chosen: NextAction | null = wanted ?? first;
  if (!chosen) return null;
  const step = outlook?.steps[0];
  const onPlan = settled && step !== undefined && step.kind === chosen.kind && step.id === chosen.id;
  const listed = proposals.find(({ kind, id }) => kind === chosen.kind && id === chosen.id) ?? null;
  return {
    kind: chosen.kind,
    id: chosen.id,
    proposal: listed ?? (onPlan ? fromStep(step) : null),
    settles: onPlan ? step.settles : null,
  };
}

function fromStep(step: NonNullable<Session['planner']['outlook']['value']>['steps'][number]): Proposal {
  const tools = step.firstNeeds.filter((need) => need.startsWith('tool:')).map((need) => need.slice('tool:'.length));
  return {
    kind: step.kind,
    id: step.id,
    title: step.title,
    attendedMinutes: step.attendedMinutes,
    waitingMinutes: step.waitingMinutes,
    money: step.money,
    cost: step.cost,
    deviation: 0,
    setUps: step.firstNeeds.filter((need) => !need.startsWith('tool:')),
    tools,
  };
}
