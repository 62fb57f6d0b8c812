/** The checks that are worth reckoning with now, before anything dear is computed. */
import { type Belief, checkRow } from '../../engine/belief/index.ts';
import type { Case } from '../../engine/case.ts';
import { defaultHourlyRate, defaultWaitingShare, workCost } from '../../engine/formulate.ts';
import type { CheckFacts, Knowledge, Work } from '../../engine/knowledge.ts';
import { mutualInformation } from './information.ts';

/**
 * The knowledge with its `most` most promising checks, what must come before them, and those done already. Promising: much
 * told about the cause for little cost. Every policy for it is a policy for the whole knowledge.
 */
export function narrowed(situation: Case, knowledge: Knowledge, now: Belief, most: number): Knowledge {
  const all = Object.values(knowledge.checks);
  if (all.length <= most) return knowledge;
  const rates = { hourlyRate: situation.hourlyRate ?? defaultHourlyRate, waitingShare: defaultWaitingShare };
  const made = new Set(situation.setUpsDone ?? []);
  const owned = new Set(situation.tools ?? []);
  const likely = now.hypotheses.filter(({ probability }) => probability > leastProbability);
  const chances = likely.map(({ probability }) => probability);
  const present = new Set(likely.flatMap(({ cause }) => cause ?? []));
  const cost = (check: CheckFacts): number => {
    const access = [...withThoseBelow(check, knowledge)].filter((id) => !made.has(id));
    const tools = check.tools.filter((id) => !knowledge.tools[id]?.owned && !owned.has(id));
    return (
      workCost(check, rates) +
      access.reduce((sum, id) => sum + workCost(knowledge.setUps[id]!, rates), 0) +
      tools.reduce((sum, id) => sum + (knowledge.tools[id]?.money ?? 0), 0)
    );
  };
  const notPossible = new Set(situation.notPossible ?? []);
  const worth = all.flatMap((check) => {
    if (notPossible.has(check.id) || !tellsOf(check, present)) return [];
    return [
      {
        id: check.id,
        worth:
          mutualInformation(
            likely.map(({ cause, hidden }) => checkRow(check.id, cause, hidden, knowledge)),
            chances,
          ) /
          (1 + cost(check)),
      },
    ];
  });
  const chosen = new Set<string>();
  const add = (id: string) => {
    if (chosen.has(id) || !knowledge.checks[id]) return;
    chosen.add(id);
    knowledge.checks[id].after.forEach(add);
  };
  for (const { check } of situation.results ?? []) add(check);
  const already = chosen.size;
  for (const { id } of worth.sort((a, b) => b.worth - a.worth || (a.id < b.id ? -1 : 1))) {
    if (chosen.size - already >= most) break;
    add(id);
  }
  return { ...knowledge, checks: Object.fromEntries(all.filter(({ id }) => chosen.has(id)).map((check) => [check.id, check])) };
}

const leastProbability = 0.002;

function tellsOf(check: CheckFacts, present: ReadonlySet<string>): boolean {
  for (const cause in check.likelihood) if (present.has(cause)) return true;
  return false;
}

function withThoseBelow(work: Pick<Work, 'setUps'>, knowledge: Knowledge): ReadonlySet<string> {
  const found = new Set<string>();
  const visit = (id: string) => {
    if (found.has(id) || !knowledge.setUps[id]) return;
    found.add(id);
    knowledge.setUps[id].setUps.forEach(visit);
  };
  work.setUps.forEach(visit);
  return found;
}
