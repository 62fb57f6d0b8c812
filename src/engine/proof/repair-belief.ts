/** How likely it is that a repair has removed the fault, before a single kilometre is driven. */
import type { Belief } from '../belief/index.ts';
import type { Knowledge } from '../knowledge.ts';

/** P(the fault is gone | belief, this repair done): its own cause by how well it holds, and what else it removes. */
export function chanceRepairWasRight(now: Belief, cause: string, knowledge: Knowledge): number {
  const repair = knowledge.causes[cause]?.repair;
  if (!repair) return 0;
  return now.causes.reduce(
    (total, { id, probability }) =>
      id === null ? total : total + probability * (id === cause ? repair.holds : (repair.alsoFixes[id] ?? 0)),
    0,
  );
}
