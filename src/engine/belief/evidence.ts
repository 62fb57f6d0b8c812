/** Evidence items: each says how likely what was seen is under each cause, apart from the results of checks. */
import type { Case } from '../case.ts';
import type { CauseFacts, Knowledge } from '../knowledge.ts';
import { codeEvidence } from './codes.ts';
import { chanceOfSet, cylinderPatterns } from './cylinders.ts';
import type { Evidence } from './evidence-item.ts';
import { conditionsOfFrame } from './freeze-frame.ts';
import { geometriesFor } from './geometry.ts';
import { trimLikelihood, trimPoints, unknownSignature } from './trims.ts';

export type { Evidence, EvidenceKind } from './evidence-item.ts';

/** All evidence of a case, in a fixed order. Ids that the knowledge does not have are passed over: callers check them first. */
export function evidenceOf(situation: Case, knowledge: Knowledge): readonly Evidence[] {
  return [
    ...codeEvidence(situation, knowledge),
    ...cylinderEvidence(situation, knowledge),
    ...bankEvidence(situation, knowledge),
    ...presenceEvidence(situation, knowledge),
    ...recentWorkEvidence(situation, knowledge),
    ...trimEvidence(situation, knowledge),
    ...replacedEvidence(situation, knowledge),
  ];
}

const severalCylindersCode = 'P0300';

function cylinderEvidence(situation: Case, knowledge: Knowledge): Evidence[] {
  const codes = situation.codes ?? [];
  const misfiring = [...new Set(codes.flatMap((code) => (code.startsWith('P03') ? (knowledge.codes[code]?.cylinder ?? []) : [])))].sort(
    (a, b) => a - b,
  );
  const several = codes.includes(severalCylindersCode);
  if (misfiring.length === 0 && !several) return [];
  const geometries = geometriesFor(situation.engine ?? {}, misfiring, knowledge.traits['layout']?.values ?? {});
  const chanceByPattern = Object.fromEntries(
    cylinderPatterns.map((pattern) => [
      pattern,
      geometries.reduce((total, { geometry, weight }) => total + weight * chanceOfSet(misfiring, several, pattern, geometry), 0),
    ]),
  );
  const byScope = Object.fromEntries(
    Object.values(knowledge.scopes).map((scope) => [
      scope.id,
      Object.entries(scope.cylinderPatterns).reduce((total, [pattern, share]) => total + share * (chanceByPattern[pattern] ?? 0), 0),
    ]),
  );
  const title =
    misfiring.length === 0
      ? 'Misfires on no one cylinder'
      : misfiring.length === 1
        ? `Misfires on cylinder ${misfiring[0]}`
        : `Misfires on cylinders ${misfiring.join(', ')}`;
  return [{ kind: 'cylinders', id: misfiring.join('-') || 'several', title, likelihood: (cause) => overScopes(cause, byScope) }];
}

/** Average over the scopes of a cause; "none of these" counts every scope alike. */
function overScopes(cause: CauseFacts | null, byScope: Readonly<Record<string, number>>): number {
  if (cause === null) {
    const values = Object.values(byScope);
    return values.reduce((total, value) => total + value, 0) / Math.max(1, values.length);
  }
  return Object.entries(cause.scope).reduce((total, [scope, share]) => total + share * (byScope[scope] ?? 0), 0);
}

/** The bank that the codes name alone, or null. */
function bankNamed(situation: Case, knowledge: Knowledge): { readonly banks: readonly number[]; readonly only: 1 | 2 | null } {
  const banks = [...new Set((situation.codes ?? []).flatMap((code) => knowledge.codes[code]?.bank ?? []))].sort();
  return { banks, only: banks.length === 1 ? (banks[0] as 1 | 2) : null };
}

/** P(one bank alone shows it | cause). */
const oneBankChance = (cause: CauseFacts | null, knowledge: Knowledge): number =>
  overScopes(cause, Object.fromEntries(Object.values(knowledge.scopes).map((scope) => [scope.id, scope.bankPatterns['one-bank'] ?? 0.5])));

function bankEvidence(situation: Case, knowledge: Knowledge): Evidence[] {
  const { banks } = bankNamed(situation, knowledge);
  if (banks.length === 0) return [];
  const layout = situation.engine?.['layout'];
  const shares = knowledge.traits['layout']?.values ?? {};
  const twoBanks =
    banks.includes(2) || layout === 'v' || layout === 'flat' ? 1 : layout === 'inline' ? 0 : (shares['v'] ?? 0) + (shares['flat'] ?? 0);
  if (twoBanks === 0) return [];
  const likelihood = (cause: CauseFacts | null) => {
    const one = oneBankChance(cause, knowledge);
    return banks.length === 2 ? 1 - one : 1 - twoBanks + twoBanks * one;
  };
  return [
    {
      kind: 'banks',
      id: banks.join('-'),
      title: banks.length === 2 ? 'Both banks have the code' : `Only bank ${banks[0]} has the code`,
      likelihood,
    },
  ];
}

function presenceEvidence(situation: Case, knowledge: Knowledge): Evidence[] {
  const symptoms = Object.entries(situation.symptoms ?? {}).flatMap(([id, presence]) => {
    const facts = knowledge.symptoms[id];
    if (!facts) return [];
    const chance = (cause: CauseFacts | null) => cause?.shows[id] ?? facts.otherwise;
    return [
      {
        kind: 'symptom' as const,
        id,
        title: facts.title,
        likelihood: (cause: CauseFacts | null) => (presence === 'present' ? chance(cause) : 1 - chance(cause)),
      },
    ];
  });
  const asked = situation.conditions ?? {};
  const frozen = conditionsOfFrame(situation.freezeFrame, knowledge).filter((id) => !Object.hasOwn(asked, id));
  const conditions = [...Object.entries(asked), ...frozen.map((id) => [id, 'present'] as const)].flatMap(([id, presence]) => {
    const facts = knowledge.conditions[id];
    if (!facts) return [];
    const chance = (cause: CauseFacts | null) => cause?.conditions[id] ?? facts.otherwise;
    return [
      {
        kind: frozen.includes(id) ? ('freeze-frame' as const) : ('condition' as const),
        id,
        title: facts.title,
        likelihood: (cause: CauseFacts | null) => (presence === 'present' ? chance(cause) : 1 - chance(cause)),
      },
    ];
  });
  return [...symptoms, ...conditions];
}

function recentWorkEvidence(situation: Case, knowledge: Knowledge): Evidence[] {
  return (situation.engine?.recentWork ?? []).flatMap((id) => {
    const facts = knowledge.recentWork[id];
    return facts
      ? [{ kind: 'recent-work' as const, id, title: facts.title, likelihood: (cause: CauseFacts | null) => cause?.recentWork[id] ?? 1 }]
      : [];
  });
}

function trimEvidence(situation: Case, knowledge: Knowledge): Evidence[] {
  const points = trimPoints(situation.trims, situation.freezeFrame);
  if (points.length === 0) return [];
  const { only } = bankNamed(situation, knowledge);
  return [
    {
      kind: 'trims',
      id: 'fuel-trims',
      title: 'Fuel trims',
      likelihood: (cause) =>
        trimLikelihood(
          points,
          (cause?.trims && knowledge.trimSignatures[cause.trims]) || unknownSignature,
          oneBankChance(cause, knowledge),
          only,
        ),
    },
  ];
}

/** Replaced parts and repairs that did not help: the cause is not innocent, it falls to the chance that the new part is bad. */
function replacedEvidence(situation: Case, knowledge: Knowledge): Evidence[] {
  const partsOf = (id: string): readonly string[] => (knowledge.parts[id] ? [id] : (knowledge.causes[id]?.parts ?? []));
  const replaced = (situation.replaced ?? []).flatMap((id): Evidence[] => {
    const parts = partsOf(id);
    if (parts.length === 0 && !knowledge.causes[id]) return [];
    const title = knowledge.parts[id]?.title ?? knowledge.causes[id]!.title;
    return [
      {
        kind: 'replaced',
        id,
        title,
        likelihood: (cause) => {
          if (cause === null) return 1;
          const hit = cause.parts.filter((part) => parts.includes(part));
          if (hit.length > 0) return Math.min(...hit.map((part) => knowledge.parts[part]?.earlyFailure ?? 0.05));
          return cause.id === id ? 1 - cause.repair.holds : 1;
        },
      },
    ];
  });
  const repaired = (situation.repaired ?? []).flatMap((id): Evidence[] => {
    const repair = knowledge.causes[id]?.repair;
    if (!repair) return [];
    return [
      {
        kind: 'repaired',
        id,
        title: repair.title,
        likelihood: (cause) => (cause === null ? 1 : 1 - (cause.id === id ? repair.holds : (repair.alsoFixes[cause.id] ?? 0))),
      },
    ];
  });
  return [...replaced, ...repaired];
}
