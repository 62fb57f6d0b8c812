import { describe, expect, test } from 'vitest';
import { belief } from '../../../src/engine/belief/index.ts';
import { movements } from '../../../src/engine/belief/movements.ts';
import { ageingFactor, existence, familyPrior, normalised, prior } from '../../../src/engine/belief/prior.ts';
import { bothNeeds, provenTraits } from '../../../src/engine/belief/proven.ts';
import { cause, check, family, knowledge } from '../tiny-knowledge.ts';

const ignition = { id: 'ignition', title: 'Ignition', values: { coil: 0.5, pair: 0.3, leads: 0.2 }, ageing: {} };
const age = {
  id: 'age',
  title: 'Driven',
  values: { little: 0.4, far: 0.6 },
  ageing: { far: { 'wears-out': 3, steady: 1, 'fails-early': 0.5 } },
};
const facts = knowledge({
  families: [
    family('f', { worn: 0.3, loose: 0.6 }),
    family('g', { worn: 0.5, odd: 0.4 }, { commonness: 0.1, needs: { ignition: ['leads'] } }),
  ],
  causes: { worn: cause({ ageing: 'wears-out' }), loose: cause(), odd: cause({ needs: { ignition: ['leads'] } }) },
  codes: { P0001: { family: 'f' }, P0002: { family: 'g' }, P0003: { family: 'f', bank: 2 } },
  rest: { traits: { ignition, age } },
});

describe('whether a thing exists on this car', () => {
  test('a known value decides', () => {
    expect(existence({ ignition: ['pair', 'leads'] }, { ignition: 'leads' }, facts)).toBe(1);
    expect(existence({ ignition: ['pair'] }, { ignition: 'leads' }, facts)).toBe(0);
  });
  test('an unknown one counts with its share, and so does a value that nobody knows', () => {
    expect(existence({ ignition: ['pair', 'leads'] }, {}, facts)).toBeCloseTo(0.5, 12);
    expect(existence({ ignition: ['leads'] }, { ignition: 'magic' }, facts)).toBeCloseTo(0.2, 12);
  });
  test('several needs multiply; none is certain', () => {
    expect(existence({ ignition: ['leads'], age: ['far'] }, {}, facts)).toBeCloseTo(0.12, 12);
    expect(existence({}, {}, facts)).toBe(1);
  });
  test('within what is proven, shares are taken of that alone', () => {
    expect(existence({ ignition: ['leads'] }, {}, facts, { ignition: ['pair', 'leads'] })).toBeCloseTo(0.4, 12);
    expect(existence({ ignition: ['coil'] }, {}, facts, { ignition: ['pair', 'leads'] })).toBe(0);
  });
});

describe('what is proven', () => {
  test('needs of two are what both allow', () => {
    expect(bothNeeds({ a: ['x', 'y'], b: ['z'] }, { a: ['y', 'w'], c: ['v'] })).toEqual({ a: ['y'], b: ['z'], c: ['v'] });
  });
  test('a code proves what its family needs, one of bank 2 a second bank, no code nothing', () => {
    expect(provenTraits({ codes: ['P0002'] }, facts)).toEqual({ ignition: ['leads'] });
    expect(provenTraits({ codes: ['P0001', 'P0003'] }, facts)).toEqual({ layout: ['v', 'flat'] });
    expect(provenTraits({}, facts)).toEqual({});
    expect(provenTraits({ codes: ['P0001', 'P9999'] }, facts)).toEqual({});
  });
});

describe('distance driven', () => {
  test('moves causes by how they age', () => {
    expect(ageingFactor(facts.causes['worn']!, { age: 'far' }, facts)).toBe(3);
    expect(ageingFactor(facts.causes['loose']!, { age: 'far' }, facts)).toBe(1);
  });
  test('moves nothing where it is unknown, or no row is given for it', () => {
    expect(ageingFactor(facts.causes['worn']!, {}, facts)).toBe(1);
    expect(ageingFactor(facts.causes['worn']!, { age: 'little' }, facts)).toBe(1);
    expect(ageingFactor(facts.causes['worn']!, { age: 3 }, facts)).toBe(1);
  });
});

describe('the prior of a family', () => {
  test('shares are moved, and renormalised beside the remainder, which stays', () => {
    const { shares, remainder } = familyPrior(facts.families['f']!, { age: 'far' }, facts);
    expect(remainder).toBeCloseTo(0.1, 12);
    expect(shares['worn']).toBeCloseTo((0.9 * 0.9) / 1.5, 12);
    expect(shares['loose']).toBeCloseTo((0.9 * 0.6) / 1.5, 12);
  });
  test('what the car does not have is not in it; where it has nothing, only the remainder is left', () => {
    const g = { ...facts.families['g']!, needs: {} };
    expect(Object.keys(familyPrior(g, { ignition: 'coil' }, facts).shares)).toEqual(['worn']);
    expect(familyPrior({ ...g, shares: { odd: 0.9 } }, { ignition: 'coil' }, facts)).toEqual({ shares: {}, remainder: 1 });
  });
});

describe('families together', () => {
  test('no family: they mix by how common they are on such cars', () => {
    // f weighs .5; g weighs .1 x .2 (one car in five has leads), together .52.
    const mixed = prior([], {}, facts);
    expect(mixed.get('loose')).toBeCloseTo((0.5 * 0.6) / 0.52, 12);
    expect(mixed.get('worn')).toBeCloseTo((0.5 * 0.3 + 0.02 * 0.5) / 0.52, 12);
    expect(mixed.get(null)).toBeCloseTo(0.1, 12);
  });
  test('one family: its own shares, however common it is; unknown names are passed over, and one named twice counts once', () => {
    expect(Object.fromEntries(prior(['f'], {}, facts))).toEqual({
      worn: expect.closeTo(0.3, 12),
      loose: expect.closeTo(0.6, 12),
      null: expect.closeTo(0.1, 12),
    });
    expect(prior(['f', 'f', 'unheard-of'], {}, facts)).toEqual(prior(['f'], {}, facts));
  });
  test('several: a cause of neither is out', () => {
    const more = knowledge({
      families: [family('f', { a: 0.9 }), family('g', { b: 0.9 }), family('h', { c: 0.9 })],
      causes: { a: cause(), b: cause(), c: cause() },
    });
    expect([...prior(['f', 'g'], {}, more).keys()].sort()).toEqual(['a', 'b', null]);
  });
  test('weights become shares that sum to 1', () => {
    expect([
      ...normalised(
        new Map([
          ['a', 2],
          ['b', 6],
        ]),
      ).values(),
    ]).toEqual([0.25, 0.75]);
  });
});

describe('the belief', () => {
  test('has nothing left but none of these when what is known contradicts every cause', () => {
    const only = knowledge({
      families: [family('f', { odd: 1 })],
      causes: { odd: cause({ needs: { ignition: ['leads'] } }) },
      codes: { P0001: { family: 'f' } },
      rest: { traits: { ignition } },
    });
    expect(belief({ codes: ['P0001'], engine: { ignition: 'coil' } }, only).causes).toEqual([{ id: null, probability: 1 }]);
  });
  test('lists hypotheses by id with none of these last, and causes likeliest first, equal ones by id', () => {
    const equal = knowledge({
      families: [family('f', { c: 0.25, a: 0.25, b: 0.4 })],
      causes: { c: cause(), a: cause({ hidden: 0.5 }), b: cause() },
      codes: { P0001: { family: 'f' } },
    });
    const now = belief({ codes: ['P0001'] }, equal);
    expect(now.hypotheses.map(({ cause: id, hidden }) => [id, hidden])).toEqual([
      ['a', false],
      ['a', true],
      ['b', false],
      ['c', false],
      [null, false],
    ]);
    expect(now.causes.map(({ id }) => id)).toEqual(['b', 'a', 'c', null]);
  });
  test('passes over results of checks and outcomes that nobody knows', () => {
    const seen = knowledge({
      families: [family('f', { a: 0.5, b: 0.4 })],
      causes: { a: cause(), b: cause() },
      checks: [check('look', { a: 0.8 }, 0.1), check('twice', { a: 0.8 }, 0.1, { repeats: true })],
      codes: { P0001: { family: 'f' } },
    });
    const plain = belief({ codes: ['P0001'] }, seen).causes;
    expect(belief({ codes: ['P0001'], results: [{ check: 'look', outcome: 'odd' }] }, seen).causes).toEqual(plain);
    expect(belief({ codes: ['P0001'], results: [{ check: 'unheard-of', outcome: 'bad' }] }, seen).causes).toEqual(plain);
    const twice = belief({ codes: ['P0001'], results: Array(2).fill({ check: 'twice', outcome: 'bad' }) }, seen);
    expect(twice.causes[0]!.probability, 'a check that repeats counts each time').toBeCloseTo(0.32 / (0.32 + 0.005), 9);
  });
});

describe('movements', () => {
  const told = { codes: ['P0001'], symptoms: { hiss: 'present' } } as const;
  const noisy = (hiss: Record<string, number>) =>
    knowledge({
      families: [family('f', { a: 0.2, b: 0.3, c: 0.3 })],
      causes: Object.fromEntries(['a', 'b', 'c'].map((id) => [id, cause({ shows: hiss[id] === undefined ? {} : { hiss: hiss[id] } })])),
      codes: { P0001: { family: 'f' } },
      rest: { symptoms: { hiss: { id: 'hiss', title: 'Hiss', otherwise: 0.1 } } },
    });
  test('come with name, odds factor and the largest first, whichever way it went', () => {
    const [hiss] = movements(told, noisy({ a: 0.9 }));
    // a: .18 / (.18 + .08) = .6923 from .2; b and c: .03 / .26 from .3; none: .02 / .26 from .2.
    expect([hiss!.kind, hiss!.id, hiss!.title]).toEqual(['symptom', 'hiss', 'Hiss']);
    expect(hiss!.moved.map(({ cause: id }) => id)).toEqual(['a', 'b', 'c', null]);
    expect(hiss!.moved[0]!.with).toBeCloseTo(0.18 / 0.26, 9);
    expect(hiss!.moved[0]!.without).toBeCloseTo(0.2, 9);
    expect(hiss!.moved[0]!.factor).toBeCloseTo(9, 6);
    expect(hiss!.moved[1]!.factor).toBeCloseTo(0.03 / 0.23 / (0.3 / 0.7), 6);
  });
  test('leave out what moved by less than half a percent point', () => {
    expect(movements(told, noisy({ a: 0.1, b: 0.1 }))[0]!.moved).toEqual([]);
    expect(movements(told, noisy({ a: 0.102 }))[0]!.moved).toEqual([]);
    expect(movements(told, noisy({ a: 0.104 }))[0]!.moved.map(({ cause: id }) => id)).toEqual(['a']);
  });
});
