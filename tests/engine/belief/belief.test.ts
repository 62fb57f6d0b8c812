import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { belief } from '../../../src/engine/belief/index.ts';
import { movements } from '../../../src/engine/belief/movements.ts';
import { cause, check, family, knowledge } from '../tiny-knowledge.ts';

const chanceOf = (now: ReturnType<typeof belief>, id: string | null) => now.causes.find((entry) => entry.id === id)?.probability ?? 0;

describe('Bayes exact for one fault', () => {
  test('standard screening example: prior .01, sensitivity .8, false alarms .096 give .0776', () => {
    const facts = knowledge({
      families: [family('f', { ill: 0.01 })],
      causes: { ill: cause() },
      checks: [check('screen', { ill: 0.8 }, 0.096)],
      codes: { P0001: { family: 'f' } },
    });
    const now = belief({ codes: ['P0001'], results: [{ check: 'screen', outcome: 'bad' }] }, facts);
    expect(chanceOf(now, 'ill')).toBeCloseTo(0.0776397515, 9);
  });

  test('without a result the belief is the share of the tree, with the remainder', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.6, b: 0.3 })],
      causes: { a: cause(), b: cause() },
      codes: { P0001: { family: 'f' } },
    });
    const now = belief({ codes: ['P0001'] }, facts);
    expect(now.causes.map(({ id, probability }) => [id, Number(probability.toFixed(9))])).toEqual([
      ['a', 0.6],
      ['b', 0.3],
      [null, 0.1],
    ]);
  });

  test('the order of independent results does not matter', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.5, b: 0.3, c: 0.1 })],
      causes: { a: cause(), b: cause(), c: cause() },
      checks: [check('x', { a: 0.9, b: 0.4 }, 0.1), check('y', { b: 0.8 }, 0.2), check('z', { c: 0.95, a: 0.5 }, 0.05)],
      codes: { P0001: { family: 'f' } },
    });
    const results = ['x', 'y', 'z'].map((name) => ({ check: name, outcome: name === 'y' ? 'good' : 'bad' }));
    const forward = belief({ codes: ['P0001'], results }, facts).causes;
    const backward = belief({ codes: ['P0001'], results: [...results].reverse() }, facts).causes;
    for (const [index, entry] of forward.entries()) expect(entry.probability).toBeCloseTo(backward[index]!.probability, 12);
  });

  test('a check that does not repeat counts once: its noise persists, and the last answer holds', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.5, b: 0.4 })],
      causes: { a: cause(), b: cause() },
      checks: [check('x', { a: 0.9 }, 0.1)],
      codes: { P0001: { family: 'f' } },
    });
    const once = belief({ codes: ['P0001'], results: [{ check: 'x', outcome: 'bad' }] }, facts);
    const changed = belief(
      {
        codes: ['P0001'],
        results: [
          { check: 'x', outcome: 'good' },
          { check: 'x', outcome: 'bad' },
        ],
      },
      facts,
    );
    expect(chanceOf(changed, 'a')).toBeCloseTo(chanceOf(once, 'a'), 12);
  });
});

describe('intermittent faults: a check sees the fault only while it is there', () => {
  const facts = (provokes: boolean) =>
    knowledge({
      families: [family('f', { loose: 0.5, dead: 0.4 })],
      causes: { loose: cause({ hidden: 0.6 }), dead: cause() },
      checks: [check('wiggle', { loose: 0.9, dead: 0.05 }, 0.05, { provokes })],
      codes: { P0001: { family: 'f' } },
    });
  test('a clean result says less about a fault that may be hiding', () => {
    const after = belief({ codes: ['P0001'], results: [{ check: 'wiggle', outcome: 'good' }] }, facts(false));
    // By hand: .5 x (.4 x .1 + .6 x .95) = .305 beside .4 x .95 = .38 and .1 x .95 = .095.
    expect(chanceOf(after, 'loose')).toBeCloseTo(0.305 / 0.78, 9);
  });
  test('a check that provokes the fault says more', () => {
    const after = belief({ codes: ['P0001'], results: [{ check: 'wiggle', outcome: 'good' }] }, facts(true));
    expect(chanceOf(after, 'loose')).toBeCloseTo(0.05 / 0.525, 9);
  });
});

describe('parts already replaced', () => {
  const parts = { coil: { id: 'coil', title: 'Coil', price: { low: 30, high: 60 }, earlyFailure: 0.05, work: null } };
  const facts = knowledge({
    families: [family('f', { 'bad-coil': 0.6, 'bad-plug': 0.3 })],
    causes: { 'bad-coil': cause({ parts: ['coil'] }), 'bad-plug': cause() },
    codes: { P0001: { family: 'f' } },
    rest: { parts },
  });
  test('a replaced part is not innocent: it falls to its early-failure rate', () => {
    const now = belief({ codes: ['P0001'], replaced: ['coil'] }, facts);
    expect(chanceOf(now, 'bad-coil')).toBeCloseTo((0.6 * 0.05) / (0.6 * 0.05 + 0.3 + 0.1), 9);
  });
  test('naming the cause instead of its part says the same', () => {
    expect(belief({ codes: ['P0001'], replaced: ['bad-coil'] }, facts).causes).toEqual(
      belief({ codes: ['P0001'], replaced: ['coil'] }, facts).causes,
    );
  });
  test('a repair that did not help leaves the chance that it did not hold', () => {
    const now = belief({ codes: ['P0001'], repaired: ['bad-coil'] }, facts);
    expect(chanceOf(now, 'bad-coil')).toBeCloseTo((0.6 * 0.05) / (0.6 * 0.05 + 0.4), 9);
  });
});

describe('several codes', () => {
  const facts = knowledge({
    families: [family('lean', { leak: 0.4, pump: 0.5 }), family('misfire', { leak: 0.2, plugs: 0.7 })],
    causes: { leak: cause(), pump: cause(), plugs: cause() },
    codes: { P0001: { family: 'lean' }, P0002: { family: 'misfire' } },
  });
  test('one fault that explains both is favoured over either alone', () => {
    const both = belief({ codes: ['P0001', 'P0002'] }, facts);
    expect(both.causes[0]?.id).toBe('leak');
    // By hand, families equally common: leak .3 x 2/3 x 1/3; pump .25 x 1 x floor .15 x .5; plugs .35 x the same; none .1 x .5 x .5.
    expect(chanceOf(both, 'leak')).toBeCloseTo(0.0666667 / (0.0666667 + 0.01875 + 0.02625 + 0.025), 5);
  });
  test('two unrelated faults keep a floor', () => {
    const both = belief({ codes: ['P0001', 'P0002'] }, facts);
    expect(chanceOf(both, 'pump')).toBeGreaterThan(0.02);
    expect(chanceOf(both, 'plugs')).toBeGreaterThan(0.02);
  });
  test('two codes of one family count its tree once', () => {
    const one = belief({ codes: ['P0002'] }, facts);
    const twice = belief({ codes: ['P0002', 'P0002'] }, facts);
    expect(twice.causes).toEqual(one.causes);
  });
});

describe('a start from symptoms alone', () => {
  const facts = knowledge({
    families: [
      family('lean', { leak: 0.5, pump: 0.4 }, { commonness: 0.3 }),
      family('misfire', { leak: 0.2, plugs: 0.7 }, { commonness: 0.1 }),
    ],
    causes: { leak: cause({ shows: { hiss: 0.8 } }), pump: cause(), plugs: cause() },
    rest: { symptoms: { hiss: { id: 'hiss', title: 'Hiss', otherwise: 0.02 } } },
  });
  test('families mix by how common they are, then by how well each explains the symptom', () => {
    const now = belief({ symptoms: { hiss: 'present' } }, facts);
    // Prior of the leak: .75 x .5 + .25 x .2 = .425.
    expect(chanceOf(now, 'leak')).toBeCloseTo((0.425 * 0.8) / (0.425 * 0.8 + 0.575 * 0.02), 9);
  });
  test('an absent symptom counts too', () => {
    const now = belief({ symptoms: { hiss: 'absent' } }, facts);
    expect(chanceOf(now, 'leak')).toBeCloseTo((0.425 * 0.2) / (0.425 * 0.2 + 0.575 * 0.98), 9);
  });
});

describe('traits', () => {
  const traits = { ignition: { id: 'ignition', title: 'Ignition', values: { 'coil-on-plug': 0.7, 'waste-spark': 0.3 }, ageing: {} } };
  const facts = knowledge({
    families: [family('misfire', { leads: 0.4, coil: 0.5 })],
    causes: { leads: cause({ needs: { ignition: ['waste-spark'] } }), coil: cause({ needs: { ignition: ['coil-on-plug'] } }) },
    codes: { P0002: { family: 'misfire' } },
    rest: { traits },
  });
  test('what the car does not have cannot be the cause, and the remainder stays', () => {
    const now = belief({ codes: ['P0002'], engine: { ignition: 'coil-on-plug' } }, facts);
    expect(chanceOf(now, 'leads')).toBe(0);
    expect(chanceOf(now, 'coil')).toBeCloseTo(0.9, 9);
  });
  test('an unknown trait counts with its share', () => {
    const now = belief({ codes: ['P0002'] }, facts);
    expect(chanceOf(now, 'leads') / chanceOf(now, 'coil')).toBeCloseTo((0.4 * 0.3) / (0.5 * 0.7), 9);
  });
});

describe('what each piece of evidence moved', () => {
  test('a movement is the belief with it beside the belief without it', () => {
    const facts = knowledge({
      families: [family('f', { a: 0.5, b: 0.4 })],
      causes: { a: cause({ shows: { hiss: 0.8 } }), b: cause({ shows: { smell: 0.6 } }) },
      codes: { P0001: { family: 'f' } },
      rest: { symptoms: { hiss: { id: 'hiss', title: 'Hiss', otherwise: 0.05 }, smell: { id: 'smell', title: 'Smell', otherwise: 0.1 } } },
    });
    const withBoth = { codes: ['P0001'], symptoms: { hiss: 'present', smell: 'present' } } as const;
    const withoutHiss = belief({ codes: ['P0001'], symptoms: { smell: 'present' } }, facts);
    const hiss = movements(withBoth, facts).find((movement) => movement.id === 'hiss')!;
    const moved = hiss.moved.find((entry) => entry.cause === 'a')!;
    expect(moved.without).toBeCloseTo(chanceOf(withoutHiss, 'a'), 9);
    expect(moved.with).toBeCloseTo(chanceOf(belief(withBoth, facts), 'a'), 9);
  });
});

test('any belief sums to 1 and is never negative or NaN', () => {
  const chance = fc.double({ min: 0.005, max: 0.995, noNaN: true });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(chance, chance, chance, fc.double({ min: 0, max: 0.9, noNaN: true })), { minLength: 1, maxLength: 8 }),
      fc.array(fc.boolean(), { minLength: 2, maxLength: 2 }),
      (rows, outcomes) => {
        const total = rows.reduce((sum, [share]) => sum + share, 0);
        const ids = rows.map((_, index) => `c${index}`);
        const facts = knowledge({
          families: [family('f', Object.fromEntries(rows.map(([share], index) => [ids[index]!, (0.9 * share) / total])))],
          causes: Object.fromEntries(rows.map(([, shows, , hidden], index) => [ids[index]!, cause({ shows: { s: shows }, hidden })])),
          checks: [
            check('x', Object.fromEntries(rows.map(([, , bad], index) => [ids[index]!, bad])), 0.1),
            check('y', { [ids[0]!]: 0.9 }, 0.02, { provokes: true }),
          ],
          codes: { P0001: { family: 'f' } },
          rest: { symptoms: { s: { id: 's', title: 's', otherwise: 0.1 } } },
        });
        const results = outcomes.map((bad, index) => ({ check: index === 0 ? 'x' : 'y', outcome: bad ? 'bad' : 'good' }));
        const now = belief({ codes: ['P0001'], symptoms: { s: 'present' }, results }, facts);
        expect(now.hypotheses.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
        for (const { probability } of now.hypotheses) expect(probability).toBeGreaterThanOrEqual(0);
      },
    ),
  );
});

describe('what a code proves of the car', () => {
  const traits = {
    'secondary-air': { id: 'secondary-air', title: 'Secondary air', values: { fitted: 0.2, 'not-fitted': 0.8 }, ageing: {} },
    layout: { id: 'layout', title: 'Layout', values: { inline: 0.7, v: 0.25, flat: 0.05 }, ageing: {} },
  };
  test('a code of a family that needs a part counts its causes as on a car that has the part', () => {
    const facts = knowledge({
      families: [family('air', { pump: 0.6, wiring: 0.3 }, { needs: { 'secondary-air': ['fitted'] } })],
      causes: { pump: cause({ needs: { 'secondary-air': ['fitted'] } }), wiring: cause() },
      codes: { P0411: { family: 'air' } },
      rest: { traits },
    });
    expect(chanceOf(belief({ codes: ['P0411'] }, facts), 'pump')).toBeCloseTo(0.6, 9);
  });
  test('a code of bank 2 proves two banks', () => {
    const facts = knowledge({
      families: [family('lean', { gasket: 0.5, pump: 0.4 })],
      causes: { gasket: cause({ needs: { layout: ['v', 'flat'] } }), pump: cause() },
      codes: { P0171: { family: 'lean' }, P0174: { family: 'lean', bank: 2 } },
      rest: {
        traits,
        scopes: { all: { id: 'all', title: 'All', cylinderPatterns: {}, bankPatterns: { 'one-bank': 0.5, 'both-banks': 0.5 } } },
      },
    });
    const scoped = {
      ...facts,
      causes: Object.fromEntries(Object.entries(facts.causes).map(([id, entry]) => [id, { ...entry, scope: { all: 1 } }])),
    };
    expect(chanceOf(belief({ codes: ['P0174'] }, scoped), 'gasket')).toBeCloseTo(0.5, 9);
    expect(chanceOf(belief({ codes: ['P0171'] }, scoped), 'gasket')).toBeLessThan(0.3);
  });
});
