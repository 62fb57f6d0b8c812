/** Knowledge + case -> the troubleshooting problem that the planner solves, and the ids behind its indices. */
import { type Belief, belief, bothNeeds, checkRow, existence, type Hypothesis, inKnownWords, provenTraits } from './belief/index.ts';
import type { Case, EngineTraits } from './case.ts';
import type { CheckFacts, FamilyFacts, Knowledge, Needs, Work } from './knowledge.ts';
import type { CheckAction, RepairAction, TroubleshootingModel } from './plan/index.ts';

/** How time becomes money. */
export interface Rates {
  /** What an attended hour is worth to the person. */
  readonly hourlyRate: number;
  /** A waiting hour as a part of an attended one: one can do something else meanwhile. */
  readonly waitingShare: number;
}

export const defaultHourlyRate = 20;
export const defaultWaitingShare = 0.1;

/** Minutes for a warm engine to be cold enough for cold work, and for a cold one to be warm. Common practice, no source. */
export const coolDownWaitingMinutes = 60;
export const warmUpWaitingMinutes = 12;

/** Hypotheses below this probability join the remainder in the plan (not in the belief): they could change no decision. */
const negligible = 5e-4;

export interface Formulation {
  readonly model: TroubleshootingModel;
  readonly belief: Belief;
  readonly rates: Rates;
  /** Ids behind the indices of the model. */
  readonly checkIds: readonly string[];
  /** Causes whose repairs are the model's repairs. */
  readonly repairIds: readonly string[];
  /** Ids of set-ups, and of tools to be had, behind `setUpCosts`. */
  readonly setUpIds: readonly string[];
  readonly hypotheses: readonly Hypothesis[];
}

/** Formulates a case. Pure and deterministic: everything is in the order of ids. */
export function formulate(told: Case, knowledge: Knowledge, now: Belief = belief(told, knowledge)): Formulation {
  const situation = inKnownWords(told, knowledge);
  const rates = { hourlyRate: situation.hourlyRate ?? defaultHourlyRate, waitingShare: defaultWaitingShare };
  const hypotheses = keepMatter(now.hypotheses);
  const notPossible = new Set(situation.notPossible ?? []);
  const resources = new ResourceIndex(situation, knowledge, rates);

  const checkIds = chosenChecks(situation, knowledge, hypotheses, notPossible);
  const done = new Set((situation.results ?? []).flatMap((result) => (result.spoiled ? [] : result.check)));
  const tried = new Set(situation.repaired ?? []);
  const repairIds = [...new Set(hypotheses.flatMap(({ cause }) => cause ?? []))]
    .sort()
    .filter((id) => !knowledge.causes[id]!.repair.professionalOnly && !notPossible.has(id));

  const checkIndex = new Map(checkIds.map((id, index) => [id, index]));
  const checks = checkIds.map((id): CheckAction => {
    const facts = knowledge.checks[id]!;
    return {
      id,
      cost: workCost(facts, rates),
      setUps: resources.of(facts),
      after: facts.after.map((before) => checkIndex.get(before)!),
      engineState: plannerState(facts),
      likelihood: hypotheses.map(({ cause, hidden }) => checkRow(id, cause, hidden, knowledge)),
      repeats: facts.repeats,
      maxPerformances: facts.repeats ? 2 : 1,
    };
  });
  const repairs = repairIds.map((id): RepairAction => {
    const facts = knowledge.causes[id]!.repair;
    return {
      id,
      cost: workCost({ ...facts, attendedMinutes: facts.attendedMinutes + facts.verifyMinutes }, rates),
      setUps: resources.of(facts),
      after: [],
      engineState: plannerState(facts),
      fixes: hypotheses.map(({ cause }) => (cause === null ? 0 : cause === id ? facts.holds : (facts.alsoFixes[cause] ?? 0))),
      spoils: facts.spoils.flatMap((check) => checkIndex.get(check) ?? []),
    };
  });
  return {
    model: {
      prior: hypotheses.map(({ probability }) => probability),
      checks,
      repairs,
      setUpCosts: resources.costs,
      handOverCost: handOverCost(now, knowledge, rates),
      coolDownCost: waitingCost(coolDownWaitingMinutes, rates),
      warmUpCost: waitingCost(warmUpWaitingMinutes, rates),
      startsWarm: situation.engineIsWarm ?? false,
      setUpsDone: resources.done,
      checksDone: checkIds.flatMap((id, index) => (done.has(id) ? [index] : [])),
      repairsTried: repairIds.flatMap((id, index) => (tried.has(id) ? [index] : [])),
    },
    belief: now,
    rates,
    checkIds,
    repairIds,
    setUpIds: resources.ids,
    hypotheses,
  };
}

/** Drops hypotheses that could change no decision into the remainder; sums to 1. */
function keepMatter(all: readonly Hypothesis[]): readonly Hypothesis[] {
  const kept = all.filter(({ cause, probability }) => cause !== null && probability >= negligible);
  const rest = 1 - kept.reduce((total, { probability }) => total + probability, 0);
  return [...kept, { cause: null, hidden: false, probability: Math.max(1e-9, rest) }];
}

/**
 * Checks that tell at least two of the hypotheses apart on a car that may have them, and what must come before those. A
 * check is left out when it, or one that it waits for, cannot be done here.
 */
function chosenChecks(
  situation: Case,
  knowledge: Knowledge,
  hypotheses: readonly Hypothesis[],
  notPossible: ReadonlySet<string>,
): readonly string[] {
  const engine = situation.engine ?? {};
  const given = givenEvidence(situation);
  const proven = provenTraits(situation, knowledge);
  const doesNotRun = Object.entries(situation.symptoms ?? {}).some(
    ([id, presence]) => presence === 'present' && knowledge.symptoms[id]?.engineDoesNotRun,
  );
  const possible = (id: string): boolean => {
    const facts = knowledge.checks[id];
    return (
      facts !== undefined &&
      !notPossible.has(id) &&
      !(facts.engineState === 'running' && doesNotRun) &&
      !facts.sameAs.some((kind) => given.has(kind)) &&
      chanceToExist(facts, hypotheses, engine, proven, knowledge) >= leastChanceToExist &&
      facts.after.every(possible)
    );
  };
  const chosen = new Set<string>();
  const add = (id: string) => {
    if (chosen.has(id)) return;
    chosen.add(id);
    knowledge.checks[id]!.after.forEach(add);
  };
  // A check with no row for any of the causes says the same of all of them.
  const checksOf = checksOfCauses(knowledge);
  const candidates = new Set(hypotheses.flatMap(({ cause }) => (cause === null ? [] : (checksOf.get(cause) ?? []))));
  for (const id of candidates) if (tellsApart(knowledge.checks[id]!, hypotheses) && possible(id)) add(id);
  return [...chosen].sort();
}

const checksByCause = new WeakMap<Knowledge, ReadonlyMap<string, readonly string[]>>();

/** Ids of the checks that have a row for a cause, by the cause. Worked out once for each knowledge: a site asks for every code. */
function checksOfCauses(knowledge: Knowledge): ReadonlyMap<string, readonly string[]> {
  const known = checksByCause.get(knowledge);
  if (known) return known;
  const found = new Map<string, string[]>();
  for (const [id, { likelihood }] of Object.entries(knowledge.checks))
    for (const cause of Object.keys(likelihood)) {
      const ids = found.get(cause);
      if (ids) ids.push(id);
      else found.set(cause, [id]);
    }
  checksByCause.set(knowledge, found);
  return found;
}

/** On a car whose traits are not all known, a check is proposed only if the car more likely has it than not. */
const leastChanceToExist = 0.5;

/** P(the check exists on this car), over what is believed: a cause that asks for the same trait brings it along. */
function chanceToExist(
  facts: CheckFacts,
  hypotheses: readonly Hypothesis[],
  engine: EngineTraits,
  proven: Needs,
  knowledge: Knowledge,
): number {
  if (Object.keys(facts.needs).length === 0) return 1;
  return hypotheses.reduce((total, { cause, probability }) => {
    const own = cause === null ? {} : knowledge.causes[cause]!.needs;
    const alone = existence(own, engine, knowledge, proven);
    return alone > 0 ? total + (probability * existence(bothNeeds(facts.needs, own), engine, knowledge, proven)) / alone : total;
  }, 0);
}

/** Kinds of evidence that the case already has, and that some checks would only read again. */
function givenEvidence(situation: Case): ReadonlySet<string> {
  const frame = situation.freezeFrame ?? {};
  const trims = Object.keys(situation.trims ?? {}).length > 0;
  return new Set([...(trims ? ['trims'] : []), ...(Object.keys(frame).length > 0 ? ['freeze-frame'] : [])]);
}

/** Likelihood ratio below which two rows count as the same. */
const sameRatio = 1.02;

function tellsApart(facts: CheckFacts, hypotheses: readonly Hypothesis[]): boolean {
  const rows = hypotheses.map(({ cause, hidden }) =>
    cause === null || (hidden && !facts.provokes) ? facts.otherwise : (facts.likelihood[cause] ?? facts.otherwise),
  );
  return facts.outcomes.some((_, outcome) => {
    const chances = rows.map((row) => row[outcome]!);
    return Math.max(...chances) > sameRatio * Math.min(...chances);
  });
}

/** Money of minutes and consumables, without set-ups and tools. */
export function workCost(work: Pick<Work, 'attendedMinutes' | 'waitingMinutes' | 'money'>, rates: Rates): number {
  return work.money + (work.attendedMinutes / 60) * rates.hourlyRate + waitingCost(work.waitingMinutes, rates);
}

/** A longer wait is a night or a working day, in which one does something else anyway. A judgement. */
export const longestCountedWaitMinutes = 120;

const waitingCost = (minutes: number, rates: Rates): number =>
  (Math.min(minutes, longestCountedWaitMinutes) / 60) * rates.hourlyRate * rates.waitingShare;

const plannerState = (work: Pick<Work, 'engineState'>) => (work.engineState === 'running' ? 'warm' : work.engineState);

/** Hand-over cost of each family, weighted by how likely the case is to be of that family. */
function handOverCost(now: Belief, knowledge: Knowledge, rates: Rates): number {
  const all = now.families.map((id) => knowledge.families[id]!).filter(Boolean);
  const cost = (family: FamilyFacts) => family.handOverMoney + (family.handOverAttendedMinutes / 60) * rates.hourlyRate;
  const families = all.length > 0 ? all : Object.values(knowledge.families);
  const weights = families.map((family) =>
    now.causes.reduce(
      (total, { id, probability }) =>
        total +
        (id !== null && family.shares[id] !== undefined ? probability * (all.length > 0 ? 1 : family.commonness * family.shares[id]) : 0),
      1e-9,
    ),
  );
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return families.reduce((total, family, index) => total + (cost(family) * weights[index]!) / sum, 0);
}

/** Indices of what is paid once: set-ups with all that they stand on, and tools not owned. Numbered as they are met. */
class ResourceIndex {
  readonly ids: string[] = [];
  readonly costs: number[] = [];
  readonly done: number[] = [];
  private readonly knowledge: Knowledge;
  private readonly rates: Rates;
  private readonly owned: ReadonlySet<string>;
  private readonly made: ReadonlySet<string>;

  constructor(situation: Case, knowledge: Knowledge, rates: Rates) {
    this.knowledge = knowledge;
    this.rates = rates;
    this.owned = new Set([
      ...(situation.tools ?? []),
      ...Object.values(knowledge.tools).flatMap((tool) => (tool.owned || tool.money === 0 ? [tool.id] : [])),
    ]);
    this.made = new Set(situation.setUpsDone ?? []);
  }

  /** Indices for a piece of work, ascending, each once. */
  of(work: Pick<Work, 'tools' | 'setUps'>): readonly number[] {
    const found = new Set<number>();
    const visitTool = (id: string) => {
      const tool = this.knowledge.tools[id];
      if (tool && !this.owned.has(id)) found.add(this.index(`tool:${id}`, tool.money, false));
    };
    const visitSetUp = (id: string) => {
      const setUp = this.knowledge.setUps[id];
      if (!setUp) return;
      const index = this.index(id, workCost(setUp, this.rates), this.made.has(id));
      if (found.has(index)) return;
      found.add(index);
      setUp.setUps.forEach(visitSetUp);
      setUp.tools.forEach(visitTool);
    };
    work.setUps.forEach(visitSetUp);
    work.tools.forEach(visitTool);
    return [...found].sort((a, b) => a - b);
  }

  private index(id: string, cost: number, done: boolean): number {
    const known = this.ids.indexOf(id);
    if (known >= 0) return known;
    this.ids.push(id);
    this.costs.push(cost);
    if (done) this.done.push(this.ids.length - 1);
    return this.ids.length - 1;
  }
}
