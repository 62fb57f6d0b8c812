/** The case of a code alone, for a page that knows nothing else: the commonest engine, as far as one is clearly commonest. */
import { existence, provenTraits } from './belief/index.ts';
import type { Case } from './case.ts';
import type { Knowledge } from './knowledge.ts';

/**
 * A trait is taken as its likeliest value only from this chance on; below it stays open. One look under the bonnet tells a
 * trait, so an order that mixes engines would name checks that the reader's engine cannot have.
 */
const clearlyCommonest = 0.5;

export interface Assumption {
  readonly trait: string;
  readonly value: string;
  readonly probability: number;
}

/** What a page about `codes` takes for granted of the engine, by trait id. Only traits that some cause of the families asks for. */
export function assumptionsFor(codes: readonly string[], knowledge: Knowledge): readonly Assumption[] {
  const families = [...new Set(codes.flatMap((code) => knowledge.codes[code]?.family ?? []))].map((id) => knowledge.families[id]!);
  const causes = families.flatMap((family) =>
    Object.entries(family.shares).map(([id, share]) => ({ cause: knowledge.causes[id]!, share })),
  );
  const proven = provenTraits({ codes }, knowledge);
  return Object.values(knowledge.traits).flatMap((trait): Assumption[] => {
    if (!proven[trait.id] && !causes.some(({ cause }) => cause.needs[trait.id])) return [];
    // A value counts by its share among engines and by how much of the families' trees exists with it.
    const possible = Object.entries(trait.values).filter(([value]) => proven[trait.id]?.includes(value) ?? true);
    const weights = possible.map(([value, share]) => ({
      value,
      weight:
        share *
        causes.reduce((total, { cause, share: part }) => total + part * existence(cause.needs, { [trait.id]: value }, knowledge), 0),
    }));
    const sum = weights.reduce((total, { weight }) => total + weight, 0);
    const best = weights.reduce((likeliest, candidate) => (candidate.weight > likeliest.weight ? candidate : likeliest));
    const probability = best.weight / sum;
    return probability >= clearlyCommonest ? [{ trait: trait.id, value: best.value, probability }] : [];
  });
}

/** The case of codes alone, with what is assumed of the engine. */
export function defaultCase(codes: readonly string[], knowledge: Knowledge): Case {
  return { codes, engine: Object.fromEntries(assumptionsFor(codes, knowledge).map(({ trait, value }) => [trait, value])) };
}
