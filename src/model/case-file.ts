/** A case as JSON from outside -> a `Case`, or every fault in it. */
import { z } from 'zod';
import type { Case } from '../engine/case.ts';
import type { Knowledge } from '../engine/knowledge.ts';
import { codeStructure } from '../engine/trouble-code.ts';
import { nearest } from './nearest.ts';

const presence = z.enum(['present', 'absent']);
const number = z.number().refine(Number.isFinite);
const cylinderNumber = z.number().int().min(1).max(16);
const freezeFrame = z.strictObject({
  engineSpeedRpm: number.optional(),
  loadPercent: number.optional(),
  coolantCelsius: number.optional(),
  intakeAirCelsius: number.optional(),
  vehicleSpeedKmh: number.optional(),
  manifoldKpa: number.optional(),
  airFlowGramsPerSecond: number.optional(),
  throttlePercent: number.optional(),
  shortTrim1Percent: number.optional(),
  longTrim1Percent: number.optional(),
  shortTrim2Percent: number.optional(),
  longTrim2Percent: number.optional(),
});
const trims = z.strictObject({
  idleBank1Percent: number.optional(),
  idleBank2Percent: number.optional(),
  at2500Bank1Percent: number.optional(),
  at2500Bank2Percent: number.optional(),
});

/** The form of a case. Ids are checked against the knowledge by `readCase`. */
export const caseSchema = z
  .strictObject({
    codes: z.array(z.string()).optional(),
    engine: z
      .looseObject({
        cylinders: z.number().int().min(1).max(16).optional(),
        firingOrder: z.array(cylinderNumber).max(16).optional(),
        bank1: z.array(cylinderNumber).max(16).optional(),
        recentWork: z.array(z.string()).optional(),
      })
      .optional(),
    symptoms: z.record(z.string(), presence).optional(),
    conditions: z.record(z.string(), presence).optional(),
    freezeFrame: freezeFrame.optional(),
    trims: trims.optional(),
    replaced: z.array(z.string()).optional(),
    results: z.array(z.strictObject({ check: z.string(), outcome: z.string() })).optional(),
    repaired: z.array(z.string()).optional(),
    notPossible: z.array(z.string()).optional(),
    tools: z.array(z.string()).optional(),
    setUpsDone: z.array(z.string()).optional(),
    engineIsWarm: z.boolean().optional(),
    hourlyRate: z.number().min(0).max(1000).optional(),
  })
  .describe('A case: what is known about one car.');

export const freezeFrameFields = Object.keys(freezeFrame.shape);
export const trimFields = Object.keys(trims.shape);

export interface CaseReading {
  readonly situation: Case | null;
  /** Full sentences; empty when `situation` is usable. */
  readonly faults: readonly string[];
  /** Codes of the right form that no tree serves: kept apart, not an error. */
  readonly codesWithoutTree: readonly string[];
}

/** Reads a parsed JSON value as a case. Unknown ids are faults, with the nearest known one. */
export function readCase(value: unknown, knowledge: Knowledge): CaseReading {
  const parsed = caseSchema.safeParse(value, { reportInput: true });
  if (!parsed.success) {
    const faults = parsed.error.issues.map((issue) => {
      const place = issue.path.join('.') || 'the case';
      if (issue.code === 'unrecognized_keys') {
        const known = Object.keys(
          issue.path[0] === 'freezeFrame' ? freezeFrame.shape : issue.path[0] === 'trims' ? trims.shape : caseSchema.shape,
        );
        return issue.keys.map((key) => `${place}: the key "${key}" is not known.${suggestion(key, known)}`).join(' ');
      }
      return `${place}: ${issue.message}.`;
    });
    return { situation: null, faults, codesWithoutTree: [] };
  }
  const situation = parsed.data;
  const faults: string[] = [];
  const expect = (place: string, id: string, known: readonly string[], noun: string) => {
    if (!known.includes(id)) faults.push(`${place}: "${id}" is not a known ${noun}.${suggestion(id, known)}`);
  };
  const ids = (table: Readonly<Record<string, unknown>>) => Object.keys(table);

  const codes: string[] = [];
  const codesWithoutTree: string[] = [];
  for (const [index, text] of (situation.codes ?? []).entries()) {
    const structure = codeStructure(text);
    if (!structure) faults.push(`codes.${index}: "${text}" is not a code. A code is a letter and four characters, such as P0301.`);
    else if (knowledge.codes[structure.code]) codes.push(structure.code);
    else codesWithoutTree.push(structure.code);
  }
  const engine: Record<string, unknown> = {};
  for (const [trait, known] of Object.entries(situation.engine ?? {})) {
    if (known === undefined || known === null || known === 'unknown') continue;
    engine[trait] = known;
    if (['cylinders', 'firingOrder', 'bank1', 'recentWork'].includes(trait)) continue;
    const facts = knowledge.traits[trait];
    if (!facts)
      faults.push(
        `engine.${trait} is not a known trait.${suggestion(trait, [...ids(knowledge.traits), 'cylinders', 'firingOrder', 'bank1', 'recentWork'])}`,
      );
    else expect(`engine.${trait}`, String(known), ids(facts.values), `value of ${trait}`);
  }
  const order = situation.engine?.firingOrder;
  if (order && new Set(order).size !== order.length) faults.push('engine.firingOrder: a cylinder stands twice.');
  if (order && situation.engine?.cylinders !== undefined && order.length !== situation.engine.cylinders)
    faults.push(`engine.firingOrder has ${order.length} cylinders, engine.cylinders says ${situation.engine.cylinders}.`);
  for (const id of situation.engine?.recentWork ?? []) expect('engine.recentWork', id, ids(knowledge.recentWork), 'kind of recent work');
  for (const id of Object.keys(situation.symptoms ?? {})) expect('symptoms', id, ids(knowledge.symptoms), 'symptom');
  for (const id of Object.keys(situation.conditions ?? {})) expect('conditions', id, ids(knowledge.conditions), 'condition');
  for (const id of situation.replaced ?? []) expect('replaced', id, [...ids(knowledge.parts), ...ids(knowledge.causes)], 'part or cause');
  for (const id of situation.repaired ?? []) expect('repaired', id, ids(knowledge.causes), 'cause');
  for (const id of situation.notPossible ?? [])
    expect('notPossible', id, [...ids(knowledge.checks), ...ids(knowledge.causes)], 'check or cause');
  for (const id of situation.tools ?? []) expect('tools', id, ids(knowledge.tools), 'tool');
  for (const id of situation.setUpsDone ?? []) expect('setUpsDone', id, ids(knowledge.setUps), 'set-up');
  for (const [index, result] of (situation.results ?? []).entries()) {
    expect(`results.${index}.check`, result.check, ids(knowledge.checks), 'check');
    const check = knowledge.checks[result.check];
    if (check)
      expect(
        `results.${index}.outcome`,
        result.outcome,
        check.outcomes.map((outcome) => outcome.id),
        `outcome of ${result.check}`,
      );
  }
  if (faults.length > 0) return { situation: null, faults, codesWithoutTree };
  return { situation: { ...situation, codes, engine } as Case, faults, codesWithoutTree };
}

function suggestion(word: string, known: readonly string[]): string {
  const near = nearest(word, known);
  return near ? ` The nearest known one is "${near}".` : '';
}
