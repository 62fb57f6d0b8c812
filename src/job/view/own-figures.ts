/** What a repair costs when the planner does not rank it, because its cause was found another way. */
import type { Case } from '../../engine/case.ts';
import type { Knowledge } from '../../engine/knowledge.ts';
import type { Proposal } from '../planner/proposal.ts';

/** Minutes and money of the repair of a cause, with the access and tools that are still to be had. */
export function ownFigures(cause: string, situation: Case, knowledge: Knowledge): Proposal | null {
  const repair = knowledge.causes[cause]?.repair;
  if (!repair) return null;
  const made = new Set(situation.setUpsDone ?? []);
  const owned = new Set(situation.tools ?? []);
  const setUps: string[] = [];
  const visit = (id: string) => {
    const setUp = knowledge.setUps[id];
    if (!setUp || made.has(id) || setUps.includes(id)) return;
    setUps.push(id);
    setUp.setUps.forEach(visit);
  };
  repair.setUps.forEach(visit);
  const access = setUps.map((id) => knowledge.setUps[id]!);
  const tools = [...new Set([repair, ...access].flatMap((work) => work.tools))].filter(
    (id) => !knowledge.tools[id]?.owned && !owned.has(id),
  );
  const sum = (pick: 'attendedMinutes' | 'waitingMinutes' | 'money') => access.reduce((total, setUp) => total + setUp[pick], repair[pick]);
  return {
    kind: 'repair',
    id: cause,
    title: repair.title,
    attendedMinutes: sum('attendedMinutes') + repair.verifyMinutes,
    waitingMinutes: sum('waitingMinutes'),
    money: sum('money') + tools.reduce((total, id) => total + (knowledge.tools[id]?.money ?? 0), 0),
    cost: 0,
    deviation: 0,
    setUps,
    tools,
  };
}
