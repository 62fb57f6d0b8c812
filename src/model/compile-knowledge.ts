/** Validated content -> the numbers that the engine reads. Words become numbers, trees become shares; prose stays behind. */
import type { CauseFacts, CheckFacts, CodeFacts, FamilyFacts, Knowledge, RepairFacts } from '../engine/knowledge.ts';
import { asNumber, clamp, completeRow } from './likelihood.ts';
import type { CauseFile, CheckFile, Content, FamilyFile } from './schema/index.ts';
import type { ProbabilityInput } from './schema/scalars.ts';
import { leavesOf } from './tree.ts';

/**
 * Compiles content without errors. `hash` names the content (see `contentHash`). Ids come out sorted, so that equal
 * content gives equal bytes.
 */
export function compileKnowledge(content: Content, hash: string): Knowledge {
  const table = <File, Facts>(files: ReadonlyMap<string, File>, facts: (id: string, file: File) => Facts): Record<string, Facts> =>
    Object.fromEntries([...files].sort(([a], [b]) => (a < b ? -1 : 1)).map(([id, file]) => [id, facts(id, file)]));
  return {
    hash,
    families: table(content.families, familyFacts),
    causes: table(content.causes, (id, file) => causeFacts(id, file, content)),
    checks: table(content.checks, checkFacts),
    codes: codeFacts(content),
    symptoms: table(content.symptoms, (id, file) => ({
      id,
      title: file.title,
      engineDoesNotRun: file.engineDoesNotRun,
      otherwise: clamp(asNumber(file.otherwise)),
    })),
    conditions: table(content.conditions, (id, file) => ({
      id,
      title: file.title,
      otherwise: clamp(asNumber(file.otherwise)),
      freezeFrame: file.freezeFrame as Record<string, { above?: number; below?: number }>,
    })),
    recentWork: table(content['recent-work'], (id, file) => ({ id, title: file.title })),
    parts: table(content.parts, (id, file) => ({
      id,
      title: file.title,
      price: file.price,
      earlyFailure: clamp(asNumber(file.earlyFailure)),
      work: file.work ?? null,
    })),
    traits: table(content.traits, (id, file) => ({
      id,
      title: file.title,
      values: Object.fromEntries(file.values.map((value) => [value.id, value.share])),
      ageing: Object.fromEntries(file.values.flatMap((value) => (value.ageing ? [[value.id, value.ageing]] : []))),
    })),
    scopes: table(content.scopes, (id, file) => ({
      id,
      title: file.title,
      cylinderPatterns: clampedRow(file.cylinderPatterns),
      bankPatterns: clampedRow(file.bankPatterns),
    })),
    trimSignatures: table(content['trim-signatures'], (id, file) => ({ id, title: file.title, atIdle: file.atIdle, change: file.change })),
    tools: table(content.tools, (id, file) => ({
      id,
      title: file.title,
      owned: file.owned,
      money: Math.min(file.price.low, file.borrowMoney ?? file.price.low),
    })),
    setUps: table(content['set-ups'], (id, file) => ({
      id,
      title: file.title,
      attendedMinutes: file.attendedMinutes,
      waitingMinutes: file.waitingMinutes,
      money: file.money,
      tools: file.tools,
      setUps: file.setUps,
    })),
  };
}

const chances = (row: Readonly<Record<string, ProbabilityInput>>): Record<string, number> =>
  Object.fromEntries(Object.entries(row).map(([key, chance]) => [key, clamp(asNumber(chance))]));

function clampedRow(row: Readonly<Record<string, number>>): Record<string, number> {
  const clamped = Object.entries(row).map(([key, chance]) => [key, clamp(chance)] as const);
  const sum = clamped.reduce((total, [, chance]) => total + chance, 0);
  return Object.fromEntries(clamped.map(([key, chance]) => [key, chance / sum]));
}

function familyFacts(id: string, file: FamilyFile): FamilyFacts {
  const shares = leavesOf(file.tree).map((leaf) => [leaf.cause, leaf.share * (1 - file.remainder)] as const);
  return {
    id,
    title: file.title,
    commonness: file.commonness,
    needs: file.needs,
    remainder: file.remainder,
    shares: Object.fromEntries(shares),
    handOverMoney: file.handOver.money,
    handOverAttendedMinutes: file.handOver.attendedMinutes,
  };
}

function causeFacts(id: string, file: CauseFile, content: Content): CauseFacts {
  return {
    id,
    title: file.title,
    scope: typeof file.scope === 'string' ? { [file.scope]: 1 } : file.scope,
    needs: file.needs,
    ageing: file.ageing,
    shows: chances(file.shows),
    conditions: chances(file.conditions),
    recentWork: file.recentWork,
    trims: file.trims ?? null,
    parts: file.parts,
    hidden: file.hidden,
    ...(file.otherCircuits ? { otherCircuits: file.otherCircuits } : {}),
    repair: repairFacts(file.repair, content),
  };
}

/** Price that the plan reckons with: the middle of the usual range. */
const middle = (range: { low: number; high: number }): number => (range.low + range.high) / 2;

function repairFacts(file: CauseFile['repair'], content: Content): RepairFacts {
  const parts = file.parts.reduce((total, { part, count, only }) => {
    const price = content.parts.get(part)?.price;
    // A part that is needed only sometimes is reckoned at half.
    return total + (price ? middle(price) * count * (only ? 0.5 : 1) : 0);
  }, 0);
  return {
    title: file.title,
    attendedMinutes: file.attendedMinutes,
    waitingMinutes: file.waitingMinutes,
    money: file.money + parts,
    tools: file.tools,
    setUps: file.setUps,
    engineState: file.engineState,
    verifyMinutes: file.verify.minutes,
    holds: clamp(asNumber(file.holds)),
    alsoFixes: chances(file.alsoFixes),
    tryAsTest: file.tryAsTest,
    professionalOnly: file.professionalOnly,
    spoils: file.spoils,
  };
}

function checkFacts(id: string, file: CheckFile): CheckFacts {
  const outcomes = file.outcomes.map((outcome) => outcome.id);
  const otherwise = completeRow(outcomes, file.otherwise, null);
  return {
    id,
    title: file.title,
    attendedMinutes: file.attendedMinutes,
    waitingMinutes: file.waitingMinutes,
    money: file.money,
    tools: file.tools,
    setUps: file.setUps,
    engineState: file.engineState,
    after: file.after,
    sameAs: file.sameAs,
    needs: file.needs,
    outcomes: file.outcomes.map(({ id: outcome, title }) => ({ id: outcome, title })),
    likelihood: Object.fromEntries(Object.entries(file.likelihood).map(([cause, row]) => [cause, completeRow(outcomes, row, otherwise)])),
    otherwise,
    repeats: file.repeats,
    provokes: file.provokes,
  };
}

/** A circuit has one set of wires for each cylinder or bank that its codes name. */
const circuitOf = (circuit: string | undefined, cylinder: number | undefined, bank: number | undefined): { circuit?: string } =>
  circuit ? { circuit: [circuit, ...(cylinder ? [`cylinder-${cylinder}`] : []), ...(bank ? [`bank-${bank}`] : [])].join('-') } : {};

function codeFacts(content: Content): Record<string, CodeFacts> {
  const facts = [...content.codes.values()].flatMap((group) =>
    Object.entries(group.codes).map(
      ([id, code]): CodeFacts => ({
        id,
        title: code.title,
        family: group.family,
        evidence: code.evidence,
        cylinder: code.cylinder ?? null,
        bank: code.bank ?? null,
        ...circuitOf(code.circuit, code.cylinder, code.bank),
      }),
    ),
  );
  return Object.fromEntries(facts.sort((a, b) => (a.id < b.id ? -1 : 1)).map((code) => [code.id, code]));
}
