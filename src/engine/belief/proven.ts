/** What the codes of a case prove of the car, before anybody looks. */
import type { Case } from '../case.ts';
import type { Knowledge, Needs } from '../knowledge.ts';

/** For a trait that both name, the values that they share; else those of the one that names it. */
export function bothNeeds(first: Needs, second: Needs): Needs {
  return Object.fromEntries(
    [...new Set([...Object.keys(first), ...Object.keys(second)])].map((trait) => {
      const [a, b] = [first[trait], second[trait]];
      return [trait, a && b ? a.filter((value) => b.includes(value)) : (a ?? b)!];
    }),
  );
}

const layoutsWithTwoBanks = ['v', 'flat'];

/** Traits as lists of possible values: a stored code proves that its part is fitted, one of bank 2 that there are two banks. */
export function provenTraits(situation: Case, knowledge: Knowledge): Needs {
  const codes = (situation.codes ?? []).flatMap((code) => knowledge.codes[code] ?? []);
  const fitted = codes.reduce<Needs>((proven, code) => bothNeeds(proven, knowledge.families[code.family]?.needs ?? {}), {});
  return codes.some((code) => code.bank === 2) ? bothNeeds(fitted, { layout: layoutsWithTwoBanks }) : fitted;
}
