/** Stored codes as evidence: each moves the causes of its family; those of several circuits at once speak for what the circuits share. */
import type { Case } from '../case.ts';
import type { CauseFacts, CodeFacts, Knowledge } from '../knowledge.ts';
import type { Evidence } from './evidence-item.ts';

/**
 * Chance that a further circuit has its code by a fault of its own, or by the search for the first one (a plug that was
 * pulled with the key on). A judgement.
 */
export const furtherCircuitFloor = 0.03;

/**
 * Evidence of the codes, family by family in the order in which they are named. A family whose codes speak of one circuit, or
 * of none, has an item for each code; one whose codes speak of several has one item for all of those.
 */
export function codeEvidence(situation: Case, knowledge: Knowledge): Evidence[] {
  const codes = [...new Set(situation.codes ?? [])].flatMap((id) => knowledge.codes[id] ?? []);
  const byFamily = [...new Set(codes.map(({ family }) => family))].flatMap((family) => {
    const ofFamily = codes.filter((code) => code.family === family);
    const named = new Set(ofFamily.flatMap(({ circuit }) => circuit ?? []));
    const circuits = [...named].map((name) => ofFamily.filter(({ circuit }) => circuit === name));
    if (circuits.length < 2) return ofFamily.flatMap(oneCode);
    return [severalCircuits(circuits, family, knowledge), ...ofFamily.filter(({ circuit }) => circuit === undefined).flatMap(oneCode)];
  });
  return [...byFamily, ...circuitsOfFamilies(codes, knowledge)];
}

const timesAsLikely = (code: CodeFacts, cause: CauseFacts): number => code.evidence[cause.id] ?? 1;

function oneCode(code: CodeFacts): Evidence[] {
  if (Object.keys(code.evidence).length === 0) return [];
  return [
    {
      kind: 'code',
      id: code.id,
      title: `${code.id}: ${code.title}`,
      likelihood: (cause) => (cause ? timesAsLikely(code, cause) : 1),
    },
  ];
}

/**
 * A cause that stands in several families explains all their codes by the prior. Where those speak of circuits, it must also reach
 * from one to the other: one wet plug is not two.
 */
function circuitsOfFamilies(codes: readonly CodeFacts[], knowledge: Knowledge): Evidence[] {
  const named = codes.filter(({ circuit }) => circuit !== undefined);
  const families = [...new Set(named.map(({ family }) => family))].flatMap((id) => knowledge.families[id] ?? []);
  if (families.length < 2) return [];
  const listedIn = (id: string): number => families.filter(({ shares }) => (shares[id] ?? 0) > 0).length;
  const explains = (cause: CauseFacts): number => reaches(cause, 1) ** Math.max(0, listedIn(cause.id) - 1);
  const shared = [...new Set(families.flatMap(({ shares }) => Object.keys(shares)))].flatMap((id) => {
    const cause = knowledge.causes[id];
    return cause && listedIn(id) > 1
      ? [{ share: Math.min(...families.flatMap(({ shares }) => shares[id] ?? [])), chance: explains(cause) }]
      : [];
  });
  const onAverage = average(shared, furtherCircuitFloor);
  return [
    {
      kind: 'code',
      id: `${named.map(({ id }) => id).join('+')} circuits`,
      title: `${named.map(({ id }) => id).join(', ')}: circuits of ${families.length} families at once`,
      likelihood: (cause) => (cause ? explains(cause) : onAverage),
    },
  ];
}

/** Mean chance, weighted by share; `none` where there is no share at all. */
function average(of: readonly { readonly share: number; readonly chance: number }[], none: number): number {
  const shares = of.reduce((sum, { share }) => sum + share, 0);
  return shares > 0 ? of.reduce((sum, { share, chance }) => sum + share * chance, 0) / shares : none;
}

/** P(a further circuit has its code | cause), where that code fits it `times` as well as the one that fits it best. */
const reaches = (cause: CauseFacts, times: number): number =>
  Math.max((cause.otherCircuits ?? 0) * Math.min(1, times), furtherCircuitFloor);

/**
 * A cause explains the circuit that fits it best in full, each further one with the chance that it reaches other circuits, and by
 * the floor at least. What is not listed is as the listed causes of the family are on average, so that codes alone neither
 * raise nor lower it.
 */
function severalCircuits(circuits: readonly (readonly CodeFacts[])[], family: string, knowledge: Knowledge): Evidence {
  const explains = (cause: CauseFacts): number => {
    const fits = circuits.map((together) => together.reduce((product, code) => product * timesAsLikely(code, cause), 1));
    return Math.max(
      ...fits.map((fit, best) =>
        fits.reduce((product, other, index) => (index === best ? product : product * reaches(cause, other / fit)), fit),
      ),
    );
  };
  const listed = Object.entries(knowledge.families[family]?.shares ?? {}).flatMap(([id, share]) => {
    const cause = knowledge.causes[id];
    return cause ? [{ share, chance: explains(cause) }] : [];
  });
  const onAverage = average(listed, 1);
  const ids = circuits.flat().map(({ id }) => id);
  return {
    kind: 'code',
    id: ids.join('+'),
    title: `${ids.join(', ')}: ${circuits.length} circuits at once`,
    likelihood: (cause) => (cause ? explains(cause) : onAverage),
  };
}
