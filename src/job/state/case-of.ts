/** What the engine is told of a job. Ids that the knowledge does not have are passed over; they stay in the job. */
import type { Case, EngineTraits } from '../../engine/case.ts';
import type { Knowledge, Work } from '../../engine/knowledge.ts';
import type { Entry, Job } from './job.ts';
import { own } from './own.ts';
import { spoiledAnswers } from './spoiled.ts';

export function caseOf(job: Job, knowledge: Knowledge): Case {
  const { inputs, timeline } = job;
  const spoiled = spoiledAnswers(timeline, knowledge);
  const worked = workOf(timeline, knowledge);
  const engine: Record<string, EngineTraits[string]> = { ...inputs.traits, recentWork: recentWorkOf(job, knowledge) };
  if (inputs.cylinders !== null) engine['cylinders'] = inputs.cylinders;
  if (inputs.firingOrder.length > 0) engine['firingOrder'] = inputs.firingOrder;
  if (inputs.bank1.length > 0) engine['bank1'] = inputs.bank1;
  return {
    codes: inputs.codes.filter((code) => own(knowledge.codes, code)),
    engine: engine as EngineTraits,
    symptoms: inputs.symptoms,
    conditions: inputs.conditions,
    freezeFrame: inputs.freezeFrame,
    trims: inputs.trims,
    replaced: inputs.replaced.filter(({ when }) => when === 'since-the-code').map(({ part }) => part),
    results: timeline.flatMap((entry) =>
      entry.kind === 'result' && own(knowledge.checks, entry.check)
        ? [{ check: entry.check, outcome: entry.outcome, ...(spoiled.has(entry.id) && { spoiled: true }) }]
        : [],
    ),
    repaired: timeline.flatMap((entry) =>
      (entry.kind === 'repair' && entry.outcome === 'still-there') || entry.kind === 'returned' ? (entry.cause ?? []) : [],
    ),
    notPossible: timeline.flatMap((entry) => (entry.kind === 'cannot' || entry.kind === 'aside' ? entry.action : [])),
    // A tool that a step needed has been had since.
    tools: [...new Set([...inputs.tools, ...worked.flatMap(({ tools }) => tools)])],
    setUpsDone: [...setUpsOf(worked, knowledge)].sort(),
    engineIsWarm: inputs.engineIsWarm ?? leftWarm(worked),
    ...(inputs.hourlyRate === null ? {} : { hourlyRate: inputs.hourlyRate }),
  };
}

/** Work done in this job, in order; what was done before it opened nothing that still is open. */
function workOf(timeline: readonly Entry[], knowledge: Knowledge): readonly Work[] {
  return timeline.flatMap((entry) => {
    if (entry.kind === 'result' && !entry.before) return own(knowledge.checks, entry.check) ?? [];
    if (entry.kind === 'repair' && entry.cause !== null) return own(knowledge.causes, entry.cause)?.repair ?? [];
    return [];
  });
}

function setUpsOf(worked: readonly Work[], knowledge: Knowledge): ReadonlySet<string> {
  const found = new Set<string>();
  const visit = (id: string) => {
    if (found.has(id) || !knowledge.setUps[id]) return;
    found.add(id);
    knowledge.setUps[id].setUps.forEach(visit);
  };
  for (const work of worked) work.setUps.forEach(visit);
  return found;
}

function leftWarm(worked: readonly Work[]): boolean {
  const last = worked.findLast(({ engineState }) => engineState !== 'any');
  return last !== undefined && last.engineState !== 'cold';
}

/** Work told outright, and the work that fitting a part just before the fault was. */
function recentWorkOf(job: Job, knowledge: Knowledge): readonly string[] {
  const fitted = job.inputs.replaced.flatMap(({ part, when }) => (when === 'just-before' ? (own(knowledge.parts, part)?.work ?? []) : []));
  return [...new Set([...job.inputs.recentWork, ...fitted])];
}
