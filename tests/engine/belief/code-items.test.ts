/** Codes as items of evidence: what they are called, and how likely each is under a cause. */
import { describe, expect, test } from 'vitest';
import { codeEvidence, furtherCircuitFloor } from '../../../src/engine/belief/codes.ts';
import { belief } from '../../../src/engine/belief/index.ts';
import { movements } from '../../../src/engine/belief/movements.ts';
import { cause, family, knowledge } from '../tiny-knowledge.ts';

const facts = knowledge({
  families: [
    family('air', { sensor: 0.5, supply: 0.2, ground: 0.1 }),
    family('coolant', { probe: 0.5, supply: 0.4, ground: 0.3 }),
    family('pump', { motor: 0.9 }),
  ],
  causes: {
    sensor: cause(),
    probe: cause(),
    motor: cause(),
    supply: cause({ otherCircuits: 0.5 }),
    ground: cause({ otherCircuits: 0.1 }),
  },
  codes: {
    P0113: { family: 'air', title: 'Air sensor high', circuit: 'air', evidence: { sensor: 2, supply: 0.5 } },
    P0110: { family: 'air', circuit: 'second-air' },
    P0118: { family: 'coolant', circuit: 'coolant' },
    P0230: { family: 'pump', circuit: 'pump' },
    P0127: { family: 'air' },
  },
});
const items = (...codes: string[]) => codeEvidence({ codes }, facts);
const called = (...codes: string[]) => items(...codes).map(({ kind, id, title }) => [kind, id, title]);
const chance = (item: ReturnType<typeof items>[number], id: string | null) => item.likelihood(id === null ? null : facts.causes[id]!);

describe('one code', () => {
  test('is an item where it tells causes apart, so many times as likely as it says', () => {
    expect(called('P0113')).toEqual([['code', 'P0113', 'P0113: Air sensor high']]);
    const [item] = items('P0113');
    expect(['sensor', 'supply', 'ground', null].map((id) => chance(item!, id))).toEqual([2, 0.5, 1, 1]);
  });
  test('is none where it says nothing beside its family; no code is none', () => {
    expect(items('P0127')).toEqual([]);
    expect(items()).toEqual([]);
    expect(codeEvidence({}, facts)).toEqual([]);
  });
});

test('two circuits of one family are one item', () => {
  expect(called('P0113', 'P0110')).toEqual([['code', 'P0113+P0110', 'P0113, P0110: 2 circuits at once']]);
  const [item] = items('P0113', 'P0110');
  // The sensor: its own circuit twice as likely, the other by the floor. The supply: the other circuit fits it better, half reach.
  expect(chance(item!, 'sensor')).toBeCloseTo(2 * furtherCircuitFloor, 12);
  expect(chance(item!, 'supply')).toBeCloseTo(1 * (0.5 * 0.5), 12);
});

describe('circuits of two families', () => {
  const of = (...codes: string[]) => items(...codes).find(({ id }) => id.endsWith('circuits'));
  test('are an item of their own beside those of the codes', () => {
    expect(called('P0113', 'P0118')).toEqual([
      ['code', 'P0113', 'P0113: Air sensor high'],
      ['code', 'P0113+P0118 circuits', 'P0113, P0118: circuits of 2 families at once'],
    ]);
  });
  test('a cause of both must reach from one to the other, one of a single family need not', () => {
    const item = of('P0113', 'P0118')!;
    expect(chance(item, 'supply')).toBe(0.5);
    expect(chance(item, 'ground')).toBe(0.1);
    expect(chance(item, 'sensor')).toBe(1);
  });
  test('what is not listed reaches as the shared causes do on average, by their smaller share', () => {
    expect(chance(of('P0113', 'P0118')!, null)).toBeCloseTo((0.2 * 0.5 + 0.1 * 0.1) / 0.3, 12);
  });
  test('where no cause is shared, it has the floor', () => {
    expect(chance(of('P0118', 'P0230')!, null)).toBe(furtherCircuitFloor);
    expect(chance(of('P0118', 'P0230')!, 'supply')).toBe(1);
  });
  test('codes without a circuit make none', () => expect(of('P0127', 'P0118')).toBeUndefined());
});

describe('edges of the belief', () => {
  test('a cause and none of these, equally likely: the cause stands first', () => {
    const even = knowledge({ families: [family('f', { zinc: 0.5 })], causes: { zinc: cause() }, codes: { P0001: { family: 'f' } } });
    expect(belief({ codes: ['P0001'] }, even).causes.map(({ id }) => id)).toEqual(['zinc', null]);
  });
  test('evidence that nothing at all could show leaves none of these', () => {
    const one = { id: 'one', title: 'One bank', cylinderPatterns: {}, bankPatterns: { 'one-bank': 1, 'both-banks': 0 } };
    const impossible = knowledge({
      families: [family('f', { a: 0.5, b: 0.4 })],
      causes: { a: cause({ scope: { one: 1 } }), b: cause({ scope: { one: 1 } }) },
      codes: { P0171: { family: 'f', bank: 1 }, P0174: { family: 'f', bank: 2 } },
      rest: { scopes: { one } },
    });
    const now = belief({ codes: ['P0171', 'P0174'] }, impossible);
    expect(now.hypotheses.map(({ cause: id, probability }) => [id, probability])).toEqual([
      ['a', 0],
      ['b', 0],
      [null, 1],
    ]);
  });
  test('what moved most stands first, also when it is not the likeliest', () => {
    const noisy = knowledge({
      families: [family('f', { a: 0.6, b: 0.2 })],
      causes: { a: cause(), b: cause({ shows: { hiss: 0.2 } }) },
      codes: { P0001: { family: 'f' } },
      rest: { symptoms: { hiss: { id: 'hiss', title: 'Hiss', otherwise: 0.1 } } },
    });
    const told = { codes: ['P0001'], symptoms: { hiss: 'present' } } as const;
    // a .06, b .04, none .02 of .12: a falls by .1, b rises by .133, none falls by .033.
    expect(belief(told, noisy).causes.map(({ id }) => id)).toEqual(['a', 'b', null]);
    expect(movements(told, noisy)[0]!.moved.map(({ cause: id }) => id)).toEqual(['b', 'a', null]);
  });
});
