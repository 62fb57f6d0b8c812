/** Which answers a later repair has made void. */
import type { Knowledge } from '../../engine/knowledge.ts';
import type { Entry } from './job.ts';
import { own } from './own.ts';

/**
 * Spoiled answer -> the repair after which it no longer holds, both by the number of their entry. A repair spoils the
 * earlier results of the checks that it names; it counts also where it helped at first, since what it moved it moved.
 */
export function spoiledAnswers(timeline: readonly Entry[], knowledge: Knowledge): ReadonlyMap<number, number> {
  const spoiled = new Map<number, number>();
  for (const [index, repair] of timeline.entries()) {
    if (repair.kind !== 'repair' || repair.cause === null) continue;
    const spoils = own(knowledge.causes, repair.cause)?.repair.spoils ?? [];
    for (const entry of timeline.slice(0, index))
      if (entry.kind === 'result' && spoils.includes(entry.check) && !spoiled.has(entry.id)) spoiled.set(entry.id, repair.id);
  }
  return spoiled;
}
