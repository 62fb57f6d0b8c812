/** A small made-up knowledge for engine tests: just what a test names, the rest at defaults. */
import type { CauseFacts, CheckFacts, FamilyFacts, Knowledge, RepairFacts } from '../../src/engine/knowledge.ts';

export const repair = (over: Partial<RepairFacts> = {}): RepairFacts => ({
  title: 'Mend it',
  attendedMinutes: 30,
  waitingMinutes: 0,
  money: 50,
  tools: [],
  setUps: [],
  engineState: 'any',
  verifyMinutes: 10,
  holds: 0.95,
  alsoFixes: {},
  tryAsTest: false,
  professionalOnly: false,
  spoils: [],
  ...over,
});

export const cause = (over: Partial<Omit<CauseFacts, 'repair'>> & { repair?: Partial<RepairFacts> } = {}): CauseFacts => ({
  id: '',
  title: 'A cause',
  scope: { 'all-cylinders': 1 },
  needs: {},
  ageing: 'steady',
  shows: {},
  conditions: {},
  recentWork: {},
  trims: null,
  parts: [],
  hidden: 0,
  ...over,
  repair: repair(over.repair),
});

/** A check with outcomes `good` and `bad`; `bad` gives P(bad | cause), everything else `falseAlarm`. */
export const check = (id: string, bad: Record<string, number>, falseAlarm: number, over: Partial<CheckFacts> = {}): CheckFacts => ({
  id,
  title: id,
  attendedMinutes: 10,
  waitingMinutes: 0,
  money: 0,
  tools: [],
  setUps: [],
  engineState: 'any',
  after: [],
  sameAs: [],
  needs: {},
  outcomes: [
    { id: 'good', title: 'Good' },
    { id: 'bad', title: 'Bad' },
  ],
  likelihood: Object.fromEntries(Object.entries(bad).map(([id, chance]) => [id, [1 - chance, chance]])),
  otherwise: [1 - falseAlarm, falseAlarm],
  repeats: false,
  provokes: false,
  ...over,
});

export const family = (id: string, shares: Record<string, number>, over: Partial<FamilyFacts> = {}): FamilyFacts => ({
  id,
  title: id,
  commonness: 0.5,
  needs: {},
  remainder: 1 - Object.values(shares).reduce((total, share) => total + share, 0),
  shares,
  handOverMoney: 300,
  handOverAttendedMinutes: 60,
  ...over,
});

export function knowledge(parts: {
  families: FamilyFacts[];
  causes: Record<string, CauseFacts>;
  checks?: CheckFacts[];
  codes?: Record<string, Partial<Knowledge['codes'][string]> & { family: string }>;
  rest?: Partial<Knowledge>;
}): Knowledge {
  const byId = <T extends { id: string }>(list: readonly T[]) => Object.fromEntries(list.map((item) => [item.id, item]));
  return {
    hash: '0',
    families: byId(parts.families),
    causes: Object.fromEntries(Object.entries(parts.causes).map(([id, facts]) => [id, { ...facts, id }])),
    checks: byId(parts.checks ?? []),
    codes: Object.fromEntries(
      Object.entries(parts.codes ?? {}).map(([id, code]) => [id, { id, title: id, evidence: {}, cylinder: null, bank: null, ...code }]),
    ),
    symptoms: {},
    conditions: {},
    recentWork: {},
    parts: {},
    traits: {},
    scopes: {},
    trimSignatures: {},
    tools: {},
    setUps: {},
    ...parts.rest,
  };
}
