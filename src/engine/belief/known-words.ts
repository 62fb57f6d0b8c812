/** A case in words of the knowledge alone. */
import type { Case, EngineTraits } from '../case.ts';
import type { Knowledge } from '../knowledge.ts';

/**
 * The case without ids that the knowledge does not have. Only own entries of a table count: saved jobs and links come from
 * strangers, and every JavaScript object answers to words such as "constructor".
 */
export function inKnownWords(situation: Case, knowledge: Knowledge): Case {
  const has = (table: object) => (id: string) => Object.hasOwn(table, id);
  const keyed = <Value>(record: Readonly<Record<string, Value>>, table: object): Readonly<Record<string, Value>> =>
    Object.fromEntries(Object.entries(record).filter(([id]) => Object.hasOwn(table, id)));
  const { codes, engine, symptoms, conditions, replaced, results, repaired } = situation;
  return {
    ...situation,
    ...(codes && { codes: codes.filter(has(knowledge.codes)) }),
    ...(engine && { engine: knownTraits(engine, knowledge) }),
    ...(symptoms && { symptoms: keyed(symptoms, knowledge.symptoms) }),
    ...(conditions && { conditions: keyed(conditions, knowledge.conditions) }),
    ...(replaced && { replaced: replaced.filter((id) => has(knowledge.parts)(id) || has(knowledge.causes)(id)) }),
    ...(results && { results: results.filter(({ check }) => has(knowledge.checks)(check)) }),
    ...(repaired && { repaired: repaired.filter(has(knowledge.causes)) }),
  };
}

function knownTraits(engine: EngineTraits, knowledge: Knowledge): EngineTraits {
  const known = Object.entries(engine).filter(([trait, value]) => {
    if (typeof value !== 'string') return true;
    const facts = Object.hasOwn(knowledge.traits, trait) ? knowledge.traits[trait] : undefined;
    return facts !== undefined && Object.hasOwn(facts.values, value);
  });
  const { recentWork, ...rest } = Object.fromEntries(known) as EngineTraits;
  return recentWork ? { ...rest, recentWork: recentWork.filter((id) => Object.hasOwn(knowledge.recentWork, id)) } : rest;
}
