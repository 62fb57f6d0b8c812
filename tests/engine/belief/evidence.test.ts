/** Each kind of evidence by itself: what it is called, and how far it moves a cause, worked out by hand. */
import { describe, expect, test } from 'vitest';
import { evidenceOf } from '../../../src/engine/belief/evidence.ts';
import { belief } from '../../../src/engine/belief/index.ts';
import { trimLikelihood, trimPoints, unknownSignature } from '../../../src/engine/belief/trims.ts';
import type { Case } from '../../../src/engine/case.ts';
import type { CauseFacts, Knowledge } from '../../../src/engine/knowledge.ts';
import { cause, family, knowledge } from '../tiny-knowledge.ts';

const layout = { id: 'layout', title: 'Layout', values: { inline: 0.6, v: 0.3, flat: 0.1 }, ageing: {} };
const scopes: Knowledge['scopes'] = {
  one: {
    id: 'one',
    title: 'One cylinder',
    cylinderPatterns: { single: 1 },
    bankPatterns: { 'one-bank': 0.9, 'both-banks': 0.1 },
  },
  all: {
    id: 'all',
    title: 'All cylinders',
    cylinderPatterns: { random: 1 },
    bankPatterns: { 'one-bank': 0.2, 'both-banks': 0.8 },
  },
};
const facts = knowledge({
  families: [family('f', { coil: 0.5, leak: 0.4 })],
  causes: {
    coil: cause({
      scope: { one: 1 },
      parts: ['coil'],
      conditions: { rain: 0.7, motorway: 0.6 },
      recentWork: { plugs: 4 },
      repair: { holds: 0.9, alsoFixes: { leak: 0.25 } },
    }),
    leak: cause({ scope: { all: 1 }, trims: 'leak', parts: ['hose', 'clip'], repair: { holds: 0.8 } }),
    ground: cause({ scope: { one: 0.5, all: 0.5 }, parts: ['unpriced'], repair: { holds: 0.7 } }),
    bare: cause({ repair: { holds: 0.6 } }),
  },
  codes: {
    P0300: { family: 'f' },
    P0302: { family: 'f', cylinder: 2 },
    P0303: { family: 'f', cylinder: 3 },
    P0310: { family: 'f', cylinder: 10 },
    P0202: { family: 'f', cylinder: 2 },
    P0171: { family: 'f', bank: 1 },
    P0174: { family: 'f', bank: 2 },
  },
  rest: {
    scopes,
    traits: { layout },
    conditions: {
      rain: { id: 'rain', title: 'In rain', otherwise: 0.1, freezeFrame: {} },
      motorway: { id: 'motorway', title: 'At speed', otherwise: 0.3, freezeFrame: { vehicleSpeedKmh: { above: 100 } } },
    },
    symptoms: { shakes: { id: 'shakes', title: 'Shakes', otherwise: 0.2 } },
    recentWork: { plugs: { id: 'plugs', title: 'New plugs' } },
    parts: {
      coil: { id: 'coil', title: 'Coil', price: { low: 30, high: 60 }, earlyFailure: 0.06, work: null },
      hose: { id: 'hose', title: 'Hose', price: { low: 5, high: 9 }, earlyFailure: 0.03, work: null },
      clip: { id: 'clip', title: 'Clip', price: { low: 1, high: 2 }, earlyFailure: 0.01, work: null },
    },
    trimSignatures: {
      leak: {
        id: 'leak',
        title: 'Leak',
        atIdle: { meanPercent: 20, sdPercent: 8 },
        change: { meanPercent: -13, sdPercent: 6 },
      },
    },
  },
});
const of = (situation: Case) => evidenceOf(situation, facts);
const named = (situation: Case) => of(situation).map(({ kind, id, title }) => [kind, id, title]);
const one = (situation: Case) => {
  const items = of(situation);
  expect(items).toHaveLength(1);
  return items[0]!;
};
const chance = (situation: Case, id: string | null): number =>
  one(situation).likelihood(id === null ? null : (facts.causes[id] as CauseFacts));

test('nothing told is no evidence', () => {
  expect(of({})).toEqual([]);
  expect(of({ codes: [], engine: {}, symptoms: {}, conditions: {}, freezeFrame: {}, trims: {}, replaced: [], repaired: [] })).toEqual([]);
});

test('words that the knowledge does not have are passed over', () => {
  const words = { symptoms: { x: 'present' }, conditions: { x: 'present' }, replaced: ['x'], repaired: ['x'], codes: ['P0999'] } as const;
  expect(of({ ...words, engine: { recentWork: ['x'] } })).toEqual([]);
});

describe('cylinders that misfire', () => {
  const four = { cylinders: 4, firingOrder: [1, 3, 4, 2], layout: 'inline' };
  test('are named in rising order, and each once', () => {
    expect(named({ codes: ['P0303'] })).toEqual([['cylinders', '3', 'Misfires on cylinder 3']]);
    expect(named({ codes: ['P0310', 'P0303', 'P0302', 'P0303'] })).toEqual([['cylinders', '2-3-10', 'Misfires on cylinders 2, 3, 10']]);
    expect(named({ codes: ['P0300'] })).toEqual([['cylinders', 'several', 'Misfires on no one cylinder']]);
  });
  test('are those of misfire codes: the code of an injector circuit names a cylinder too, and says nothing of a misfire', () => {
    expect(of({ codes: ['P0202'] })).toEqual([]);
  });
  test('speak by the pattern: one of four for a fault of one cylinder, one of fifteen sets for a random one', () => {
    const case3 = { codes: ['P0303'], engine: four };
    expect(chance(case3, 'coil')).toBeCloseTo(1 / 4, 12);
    expect(chance(case3, 'leak')).toBeCloseTo(0.15 / 15, 12);
    expect(chance(case3, 'ground')).toBeCloseTo((1 / 4 + 0.15 / 15) / 2, 12);
    expect(chance(case3, null), 'none of these counts every scope alike').toBeCloseTo((1 / 4 + 0.15 / 15) / 2, 12);
  });
  test('with the code for several cylinders speak for a fault that wanders', () => {
    const wanders = { codes: ['P0300', 'P0303'], engine: four };
    expect(chance(wanders, 'coil')).toBeCloseTo(0.1 / 4, 12);
    expect(chance(wanders, 'leak')).toBeCloseTo(0.5 / 15, 12);
    expect(chance({ codes: ['P0300'], engine: four }, 'leak')).toBeCloseTo(0.5, 12);
  });
});

describe('banks that the codes name', () => {
  const v = { layout: 'v' };
  test('are told by name', () => {
    expect(named({ codes: ['P0171'], engine: v })).toEqual([['banks', '1', 'Only bank 1 has the code']]);
    expect(named({ codes: ['P0174', 'P0171'] })).toEqual([['banks', '1-2', 'Both banks have the code']]);
  });
  test('an engine with one bank tells nothing by them', () => {
    expect(of({ codes: ['P0171'], engine: { layout: 'inline' } })).toEqual([]);
  });
  test.each(['v', 'flat'])('one code of a %s engine: the chance that the fault stays on one bank', (kind) => {
    const told = { codes: ['P0171'], engine: { layout: kind } };
    expect(chance(told, 'coil')).toBeCloseTo(0.9, 12);
    expect(chance(told, 'leak')).toBeCloseTo(0.2, 12);
    expect(chance(told, 'ground')).toBeCloseTo(0.55, 12);
  });
  test('a code of bank 2 proves two banks', () => {
    expect(chance({ codes: ['P0174'] }, 'coil')).toBeCloseTo(0.9, 12);
  });
  test('codes of both: the chance that it reaches both', () => {
    expect(chance({ codes: ['P0171', 'P0174'] }, 'coil')).toBeCloseTo(0.1, 12);
    expect(chance({ codes: ['P0171', 'P0174'] }, 'leak')).toBeCloseTo(0.8, 12);
  });
  test('an unknown layout counts with the share of engines that have two banks', () => {
    // Four cars in ten have two banks; on the others bank 1 is all there is.
    expect(chance({ codes: ['P0171'] }, 'coil')).toBeCloseTo(0.6 + 0.4 * 0.9, 12);
    expect(chance({ codes: ['P0171'] }, 'leak')).toBeCloseTo(0.6 + 0.4 * 0.2, 12);
  });
});

describe('symptoms and conditions', () => {
  test('present and absent are chances that sum to 1, listed or not', () => {
    expect(named({ symptoms: { shakes: 'present' } })).toEqual([['symptom', 'shakes', 'Shakes']]);
    expect(named({ conditions: { rain: 'present' } })).toEqual([['condition', 'rain', 'In rain']]);
    expect(chance({ conditions: { rain: 'present' } }, 'coil')).toBeCloseTo(0.7, 12);
    expect(chance({ conditions: { rain: 'absent' } }, 'coil')).toBeCloseTo(0.3, 12);
    expect(chance({ conditions: { rain: 'present' } }, 'leak')).toBeCloseTo(0.1, 12);
    expect(chance({ conditions: { rain: 'absent' } }, null)).toBeCloseTo(0.9, 12);
    expect(chance({ symptoms: { shakes: 'absent' } }, null)).toBeCloseTo(0.8, 12);
  });
  test('a freeze frame answers the conditions whose bounds it is within', () => {
    expect(named({ freezeFrame: { vehicleSpeedKmh: 120 } })).toEqual([['freeze-frame', 'motorway', 'At speed']]);
    expect(chance({ freezeFrame: { vehicleSpeedKmh: 120 } }, 'coil')).toBeCloseTo(0.6, 12);
    expect(of({ freezeFrame: { vehicleSpeedKmh: 100 } }), 'at the bound is not above it').toEqual([]);
  });
  test('what was asked stands before what the frame says', () => {
    const told = { conditions: { motorway: 'absent' }, freezeFrame: { vehicleSpeedKmh: 120 } } as const;
    expect(named(told)).toEqual([['condition', 'motorway', 'At speed']]);
    expect(chance(told, 'coil')).toBeCloseTo(0.4, 12);
  });
});

test('the last work on the car makes what it leaves behind so many times as likely, and nothing else', () => {
  const told = { engine: { recentWork: ['plugs'] } };
  expect(named(told)).toEqual([['recent-work', 'plugs', 'New plugs']]);
  expect([chance(told, 'coil'), chance(told, 'leak'), chance(told, null)]).toEqual([4, 1, 1]);
});

describe('fuel trims', () => {
  const trims = { idleBank1Percent: 21, idleBank2Percent: 2 };
  const points = trimPoints(trims, undefined);
  test('are one item, by the signature of the cause and the banks that it reaches', () => {
    expect(named({ trims })).toEqual([['trims', 'fuel-trims', 'Fuel trims']]);
    expect(chance({ trims }, 'leak')).toBeCloseTo(trimLikelihood(points, facts.trimSignatures['leak']!, 0.2, null), 15);
  });
  test('a cause without a signature has the wide one, and so has none of these', () => {
    expect(chance({ trims }, 'coil')).toBeCloseTo(trimLikelihood(points, unknownSignature, 0.9, null), 15);
    expect(chance({ trims }, null)).toBeCloseTo(trimLikelihood(points, unknownSignature, 0.55, null), 15);
  });
  test('the bank that the codes name alone is the one looked for', () => {
    const byBank = (codes: string[]) =>
      of({ codes, trims })
        .find(({ kind }) => kind === 'trims')!
        .likelihood(facts.causes['leak']!);
    expect(byBank(['P0171'])).toBeCloseTo(trimLikelihood(points, facts.trimSignatures['leak']!, 0.2, 1), 15);
    expect(byBank(['P0174'])).toBeCloseTo(trimLikelihood(points, facts.trimSignatures['leak']!, 0.2, 2), 15);
    expect(byBank(['P0171', 'P0174'])).toBeCloseTo(trimLikelihood(points, facts.trimSignatures['leak']!, 0.2, null), 15);
  });
});

describe('parts replaced and repairs tried', () => {
  test('a replaced part is bad again with its early-failure rate', () => {
    expect(named({ replaced: ['coil'] })).toEqual([['replaced', 'coil', 'Coil']]);
    expect([chance({ replaced: ['coil'] }, 'coil'), chance({ replaced: ['coil'] }, 'leak'), chance({ replaced: ['coil'] }, null)]).toEqual([
      0.06, 1, 1,
    ]);
  });
  test('a cause that has several of the replaced parts is as innocent as the best of them', () => {
    expect(named({ replaced: ['leak'] })).toEqual([['replaced', 'leak', 'A cause']]);
    expect(chance({ replaced: ['leak'] }, 'leak')).toBe(0.01);
    expect(chance({ replaced: ['hose'] }, 'leak')).toBe(0.03);
  });
  test('a part that the knowledge does not price fails early in one of twenty', () => {
    expect(chance({ replaced: ['ground'] }, 'ground')).toBe(0.05);
  });
  test('a cause without parts is left with the chance that its repair did not hold', () => {
    expect(chance({ replaced: ['bare'] }, 'bare')).toBeCloseTo(0.4, 12);
    expect(chance({ replaced: ['bare'] }, 'coil')).toBe(1);
  });
  test('a repair that did not help clears its cause as far as it holds, and others as far as it reaches them', () => {
    expect(named({ repaired: ['coil'] })).toEqual([['repaired', 'coil', 'Mend it']]);
    expect(chance({ repaired: ['coil'] }, 'coil')).toBeCloseTo(0.1, 12);
    expect(chance({ repaired: ['coil'] }, 'leak')).toBeCloseTo(0.75, 12);
    expect([chance({ repaired: ['coil'] }, 'ground'), chance({ repaired: ['coil'] }, null)]).toEqual([1, 1]);
  });
});

test('the items stand in one order: cylinders, banks, symptoms, conditions, frame, work, trims, parts, repairs', () => {
  const told: Case = {
    codes: ['P0171', 'P0303'],
    engine: { layout: 'v', recentWork: ['plugs'] },
    symptoms: { shakes: 'present' },
    conditions: { rain: 'present' },
    freezeFrame: { vehicleSpeedKmh: 120 },
    trims: { idleBank1Percent: 10 },
    replaced: ['coil'],
    repaired: ['leak'],
  };
  expect(of(told).map(({ kind }) => kind)).toEqual([
    'cylinders',
    'banks',
    'symptom',
    'condition',
    'freeze-frame',
    'recent-work',
    'trims',
    'replaced',
    'repaired',
  ]);
  expect(belief(told, facts).evidence.map(({ kind }) => kind)).toEqual(of(told).map(({ kind }) => kind));
});
