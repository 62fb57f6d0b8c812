import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { knowledgeOrExit } from '../../scripts/content/knowledge.ts';
import { banksOff, changeOf, readingsOf, signatureFits, totalTrim } from '../../src/bench/calc/fuel-trim.ts';
import { belief } from '../../src/engine/belief/index.ts';
import type { TrimSignature } from '../../src/engine/knowledge.ts';

const { knowledge } = knowledgeOrExit();
const signatures = Object.values(knowledge.trimSignatures);
const best = (idle: number, raised: number) =>
  signatureFits(1, { idleBank1Percent: idle, at2500Bank1Percent: raised }, signatures)[0]!.signature.id;
const trim = fc.double({ min: -40, max: 40, noNaN: true });

describe('fuel trim at two speeds', () => {
  test('the total is short plus long; one of the two alone still gives a total', () => {
    expect(totalTrim({ shortPercent: 4, longPercent: 16 })).toBe(20);
    expect(totalTrim({ shortPercent: null, longPercent: 16 })).toBe(16);
    expect(totalTrim({ shortPercent: null, longPercent: null })).toBeNull();
  });

  // Common practice, no source: a vacuum leak shrinks with airflow, delivery that falls behind grows with it.
  test.each([
    [20, 4, 'air-behind-the-meter'],
    [6, 17, 'too-little-fuel'],
    [-19, -10, 'too-much-fuel'],
    [2, 2, 'near-normal'],
  ])('%d percent at idle and %d at 2,500 rpm fits %s best', (idle, raised, id) => {
    expect(best(idle, raised)).toBe(id);
  });

  test('each pattern is best at a reading of its own means, or the one that beats it is a close neighbour', () => {
    for (const signature of signatures) {
      const fits = signatureFits(
        1,
        {
          idleBank1Percent: signature.atIdle.meanPercent,
          at2500Bank1Percent: signature.atIdle.meanPercent + signature.change.meanPercent,
        },
        signatures,
      );
      const own = fits.find((fit) => fit.signature.id === signature.id)!;
      expect(own.share, signature.id).toBeGreaterThan(0.5 * fits[0]!.share);
    }
  });

  test('shares sum to one, fall down the list, and do not depend on the order of the patterns', () => {
    fc.assert(
      fc.property(trim, trim, (idle, raised) => {
        const readings = { idleBank1Percent: idle, at2500Bank1Percent: raised };
        const fits = signatureFits(1, readings, signatures);
        expect(fits.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
        for (let place = 1; place < fits.length; place++) expect(fits[place]!.share).toBeLessThanOrEqual(fits[place - 1]!.share);
        expect(signatureFits(1, readings, [...signatures].reverse()).map(({ share }) => share.toFixed(9))).toEqual(
          fits.map(({ share }) => share.toFixed(9)),
        );
      }),
    );
  });

  test('two made-up patterns part by the ratio of their normal densities', () => {
    const pattern = (id: string, meanPercent: number): TrimSignature => ({
      id,
      title: id,
      atIdle: { meanPercent, sdPercent: Math.sqrt(21) },
      change: { meanPercent: 0, sdPercent: 4 },
    });
    // Spread with the reading's own 2 %: sqrt(21 + 4) = 5. At 0: densities of N(0, 5) and N(10, 5), each with 3 % of a flat 1/100.
    const density = (distance: number) => 0.97 * (Math.exp(-0.5 * (distance / 5) ** 2) / (5 * Math.sqrt(2 * Math.PI))) + 0.03 / 100;
    const [first] = signatureFits(1, { idleBank1Percent: 0 }, [pattern('a', 0), pattern('b', 10)]);
    expect(first!.signature.id).toBe('a');
    expect(first!.share).toBeCloseTo(density(0) / (density(0) + density(10)), 9);
  });

  test('the pattern that fits best is also the one whose causes gain in a job', () => {
    const told = { trims: { idleBank1Percent: 20, at2500Bank1Percent: 4 }, codes: ['P0171'] };
    const before = belief({ codes: ['P0171'] }, knowledge);
    const after = belief(told, knowledge);
    const sum = (now: typeof before) =>
      now.causes.reduce(
        (total, { id, probability }) => total + (id !== null && knowledge.causes[id]?.trims === best(20, 4) ? probability : 0),
        0,
      );
    expect(sum(after)).toBeGreaterThan(sum(before));
  });

  test('a bank that was not read has no fit', () => {
    expect(signatureFits(2, { idleBank1Percent: 20 }, signatures)).toEqual([]);
  });

  test('a change of five percent counts, as in the check', () => {
    expect([changeOf(20, 14.9), changeOf(20, 15), changeOf(10, 14.9), changeOf(10, 15)]).toEqual(['falls', 'holds', 'holds', 'climbs']);
  });

  test('banks: one off, both off, or off to opposite sides', () => {
    expect(banksOff({ idleBank1Percent: 20, idleBank2Percent: 2 })).toBe('one');
    expect(banksOff({ idleBank1Percent: 20, idleBank2Percent: 18 })).toBe('both');
    expect(banksOff({ idleBank1Percent: 20, idleBank2Percent: -18 })).toBe('opposite');
    expect(banksOff({ idleBank1Percent: 4, at2500Bank1Percent: -11, idleBank2Percent: 3 })).toBe('one');
    expect(banksOff({ idleBank1Percent: 4, idleBank2Percent: 3 })).toBe('none');
    expect(banksOff({ idleBank1Percent: 4 })).toBeNull();
  });

  test('what was not read stays out of the case', () => {
    const none = { shortPercent: null, longPercent: null };
    expect(
      readingsOf(
        { idle: { shortPercent: 1, longPercent: 2 }, raised: none },
        { idle: none, raised: { shortPercent: null, longPercent: -3 } },
      ),
    ).toEqual({ idleBank1Percent: 3, at2500Bank2Percent: -3 });
  });
});
