/** Who mentions whom, backwards: built once, so that every page can link both ways. */
import { cautionsFor } from '../model/cautions.ts';
import type { Content } from '../model/schema/index.ts';
import { leavesOf } from '../model/tree.ts';

export type Index = ReadonlyMap<string, readonly string[]>;

/** Everything that uses a tool, a set-up or a caution. */
export interface Uses {
  readonly checks: readonly string[];
  /** Causes whose repair uses it. */
  readonly causes: readonly string[];
  readonly setUps: readonly string[];
}

export interface Links {
  readonly familiesOfCause: Index;
  /** Checks that give a chance for the cause. */
  readonly checksOfCause: Index;
  /** Families of which the check tells at least one cause. */
  readonly familiesOfCheck: Index;
  readonly codesOfFamily: Index;
  readonly causesOfSymptom: Index;
  readonly causesOfCondition: Index;
  readonly causesOfRecentWork: Index;
  readonly partsOfRecentWork: Index;
  readonly familiesOfMonitor: Index;
  readonly checksAfterCheck: Index;
  readonly causesFixedBy: Index;
  readonly usesOfTool: ReadonlyMap<string, Uses>;
  readonly usesOfSetUp: ReadonlyMap<string, Uses>;
  readonly usesOfCaution: ReadonlyMap<string, Uses>;
  /** Causes of whose repair or replacement the part is. */
  readonly causesOfPart: Index;
  readonly cautionsOfCheck: Index;
  readonly cautionsOfRepair: Index;
  readonly cautionsOfSetUp: Index;
  readonly cautionsOfTool: Index;
}

/** Collects pairs into sorted lists without repeats. */
function collected(pairs: Iterable<readonly [string, string]>): Index {
  const sets = new Map<string, Set<string>>();
  for (const [key, value] of pairs) sets.set(key, (sets.get(key) ?? new Set()).add(value));
  return new Map([...sets].sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, values]) => [key, [...values].sort()]));
}

/** Turns an index round. */
const reversed = (index: Index): Index => collected([...index].flatMap(([key, values]) => values.map((value) => [value, key] as const)));

export function linksOf(content: Content): Links {
  const familiesOfCause = collected([...content.families].flatMap(([id, file]) => leavesOf(file.tree).map(({ cause }) => [cause, id])));
  const checksOfCause = collected([...content.checks].flatMap(([id, file]) => Object.keys(file.likelihood).map((cause) => [cause, id])));
  const familiesOfCheck = collected(
    [...content.checks].flatMap(([id, file]) =>
      Object.keys(file.likelihood).flatMap((cause) => (familiesOfCause.get(cause) ?? []).map((family) => [id, family] as const)),
    ),
  );
  const cautionsOfCheck: Index = new Map([...content.checks].map(([id, file]) => [id, cautionsFor(content, file)]));
  const cautionsOfRepair: Index = new Map([...content.causes].map(([id, file]) => [id, cautionsFor(content, file.repair)]));
  const cautionsOfSetUp: Index = new Map([...content['set-ups']].map(([id, file]) => [id, cautionsFor(content, file)]));
  const cautionsOfTool: Index = new Map(
    [...content.tools].map(([id, file]) => [id, cautionsFor(content, { hazards: file.hazards, tools: [id], setUps: [], steps: [] })]),
  );
  const uses = (checks: Index, causes: Index, setUps: Index): ReadonlyMap<string, Uses> =>
    new Map(
      [...new Set([...checks.keys(), ...causes.keys(), ...setUps.keys()])]
        .sort()
        .map((id) => [id, { checks: checks.get(id) ?? [], causes: causes.get(id) ?? [], setUps: setUps.get(id) ?? [] }]),
    );
  const naming = (pick: (work: { tools: readonly string[]; setUps: readonly string[] }) => readonly string[]) =>
    uses(
      collected([...content.checks].flatMap(([id, file]) => pick(file).map((used) => [used, id] as const))),
      collected([...content.causes].flatMap(([id, file]) => pick(file.repair).map((used) => [used, id] as const))),
      collected([...content['set-ups']].flatMap(([id, file]) => pick(file).map((used) => [used, id] as const))),
    );
  return {
    familiesOfCause,
    checksOfCause,
    familiesOfCheck,
    codesOfFamily: collected(
      [...content.codes.values()].flatMap((group) => Object.keys(group.codes).map((code) => [group.family, code] as const)),
    ),
    causesOfSymptom: collected([...content.causes].flatMap(([id, file]) => Object.keys(file.shows).map((key) => [key, id] as const))),
    causesOfCondition: collected(
      [...content.causes].flatMap(([id, file]) => Object.keys(file.conditions).map((key) => [key, id] as const)),
    ),
    causesOfRecentWork: collected(
      [...content.causes].flatMap(([id, file]) => Object.keys(file.recentWork).map((key) => [key, id] as const)),
    ),
    partsOfRecentWork: collected([...content.parts].flatMap(([id, file]) => (file.work ? [[file.work, id] as const] : []))),
    familiesOfMonitor: collected([...content.families].flatMap(([id, file]) => file.monitors.map((monitor) => [monitor, id] as const))),
    checksAfterCheck: collected([...content.checks].flatMap(([id, file]) => file.after.map((before) => [before, id] as const))),
    causesFixedBy: collected(
      [...content.causes].flatMap(([id, file]) => Object.keys(file.repair.alsoFixes).map((other) => [other, id] as const)),
    ),
    usesOfTool: naming((work) => work.tools),
    usesOfSetUp: naming((work) => work.setUps),
    usesOfCaution: uses(reversed(cautionsOfCheck), reversed(cautionsOfRepair), reversed(cautionsOfSetUp)),
    causesOfPart: collected(
      [...content.causes].flatMap(([id, file]) =>
        [...file.parts, ...file.repair.parts.map(({ part }) => part)].map((part) => [part, id] as const),
      ),
    ),
    cautionsOfCheck,
    cautionsOfRepair,
    cautionsOfSetUp,
    cautionsOfTool,
  };
}
