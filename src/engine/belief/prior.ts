/** The prior over causes from codes, traits and age: shares of the families' trees. */
import type { EngineTraits } from '../case.ts';
import type { CauseFacts, FamilyFacts, Knowledge, Needs } from '../knowledge.ts';
import { bothNeeds } from './proven.ts';

/** Ids of causes in a fixed order; the last hypothesis, null, is "none of these". */
export type CauseId = string | null;

/**
 * Chance that an unrelated second fault set a code, as a part of how common its family is: the floor under a cause that
 * does not explain all codes. A judgement.
 */
export const unrelatedFaultFloor = 0.15;

/**
 * P(a thing with these needs exists on this car): known traits decide, unknown ones count with their shares. `given` is what
 * is certain already, such as what a stored code proves to be fitted.
 */
export function existence(needs: Needs, engine: EngineTraits, knowledge: Knowledge, given: Needs = {}): number {
  return Object.entries(needs).reduce((chance, [trait, values]) => {
    const known = engine[trait];
    const shares = knowledge.traits[trait]?.values ?? {};
    if (typeof known === 'string' && Object.hasOwn(shares, known)) return values.includes(known) ? chance : 0;
    const possible = given[trait] ?? Object.keys(shares);
    const share = (list: readonly string[]) => list.reduce((total, value) => total + (shares[value] ?? 0), 0);
    return (chance * share(values.filter((value) => possible.includes(value)))) / share(possible);
  }, 1);
}

/** Factor of a cause for the distance driven; 1 when that is unknown. */
export function ageingFactor(cause: CauseFacts, engine: EngineTraits, knowledge: Knowledge): number {
  for (const trait of Object.values(knowledge.traits)) {
    const value = engine[trait.id];
    const row = typeof value === 'string' ? trait.ageing[value] : undefined;
    if (row) return row[cause.ageing];
  }
  return 1;
}

/** P(cause | family, traits): shares moved by what exists and by age, renormalised beside the family's remainder. */
export function familyPrior(
  family: FamilyFacts,
  engine: EngineTraits,
  knowledge: Knowledge,
  given: Needs = {},
): { readonly shares: Readonly<Record<string, number>>; readonly remainder: number } {
  const fitted = bothNeeds(given, family.needs);
  const moved = Object.entries(family.shares).map(([id, share]) => {
    const cause = knowledge.causes[id];
    return [id, cause ? share * existence(cause.needs, engine, knowledge, fitted) * ageingFactor(cause, engine, knowledge) : 0] as const;
  });
  const sum = moved.reduce((total, [, share]) => total + share, 0);
  if (sum <= 0) return { shares: {}, remainder: 1 };
  const scale = (1 - family.remainder) / sum;
  return {
    shares: Object.fromEntries(moved.filter(([, share]) => share > 0).map(([id, share]) => [id, share * scale])),
    remainder: family.remainder,
  };
}

/**
 * The prior over causes and the remainder; sums to 1.
 * - No family: families mix by how common they are.
 * - One: its shares.
 * - Several: P(c) * product over families f of P(f | c), where P(f | c) follows from the shares by Bayes' rule, with a floor
 *   for a second, unrelated fault. So a cause that explains every code is favoured over two faults.
 */
export function prior(
  familyIds: readonly string[],
  engine: EngineTraits,
  knowledge: Knowledge,
  given: Needs = {},
): ReadonlyMap<CauseId, number> {
  const families = [...new Set(familyIds)].map((id) => knowledge.families[id]).filter((family) => family !== undefined);
  if (families.length === 1) {
    const { shares, remainder } = familyPrior(families[0]!, engine, knowledge, given);
    return normalised(new Map<CauseId, number>([...Object.entries(shares), [null, remainder]]));
  }
  const all = Object.values(knowledge.families);
  // A family whose codes the car cannot store is not among those that mix.
  const common = (family: FamilyFacts) => family.commonness * existence(family.needs, engine, knowledge, given);
  const commonSum = all.reduce((total, family) => total + common(family), 0);
  const weight = (family: FamilyFacts) => common(family) / commonSum;
  const priors = new Map(all.map((family) => [family.id, familyPrior(family, engine, knowledge, given)]));

  const base = new Map<CauseId, number>();
  for (const family of all) {
    const { shares, remainder } = priors.get(family.id)!;
    for (const [id, share] of Object.entries(shares)) base.set(id, (base.get(id) ?? 0) + weight(family) * share);
    base.set(null, (base.get(null) ?? 0) + weight(family) * remainder);
  }
  if (families.length === 0) return normalised(base);
  const joint = new Map<CauseId, number>();
  for (const [id, chance] of base) {
    let explained = 0;
    const product = families.reduce((total, family) => {
      const { shares, remainder } = priors.get(family.id)!;
      const share = id === null ? remainder : (shares[id] ?? 0);
      if (share > 0) explained += 1;
      return total * Math.max((weight(family) * share) / chance, unrelatedFaultFloor * weight(family));
    }, chance);
    if (explained > 0) joint.set(id, product);
  }
  return normalised(joint);
}

export function normalised<Key>(weights: ReadonlyMap<Key, number>): ReadonlyMap<Key, number> {
  const sum = [...weights.values()].reduce((total, value) => total + value, 0);
  return new Map([...weights].map(([key, value]) => [key, value / sum]));
}
