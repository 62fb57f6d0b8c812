import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { furtherCircuitFloor } from '../../../src/engine/belief/codes.ts';
import { belief } from '../../../src/engine/belief/index.ts';
import { cause, family, knowledge } from '../tiny-knowledge.ts';

const chanceOf = (codes: string[], id: string | null, facts = sensors) =>
  belief({ codes }, facts).causes.find((entry) => entry.id === id)?.probability ?? 0;

/** Two sensors on one ground: each has its own fault, the ground takes both with it in three cars of four. */
const sensors = knowledge({
  families: [family('temperature', { air: 0.45, coolant: 0.45, ground: 0.05 })],
  causes: { air: cause(), coolant: cause(), ground: cause({ otherCircuits: 0.75 }) },
  codes: {
    P0113: { family: 'temperature', circuit: 'air-sensor', evidence: { coolant: 0.05 } },
    P0114: { family: 'temperature', circuit: 'air-sensor', evidence: { coolant: 0.05 } },
    P0118: { family: 'temperature', circuit: 'coolant-sensor', evidence: { air: 0.05 } },
    P0111: { family: 'temperature', evidence: { air: 3 } },
  },
});

describe('codes of several circuits in one family', () => {
  test('favour what the circuits share, by the numbers worked out by hand', () => {
    // Air explains its own circuit in full and the other by the floor; the coolant sensor likewise; the ground both.
    const weights = { air: 0.45 * furtherCircuitFloor, coolant: 0.45 * furtherCircuitFloor, ground: 0.05 * 0.75 };
    const listed = weights.air + weights.coolant + weights.ground;
    // "None of these" is as the listed ones are on average, so it keeps its share.
    const none = 0.05 * (listed / 0.95);
    expect(chanceOf(['P0113', 'P0118'], 'ground')).toBeCloseTo(weights.ground / (listed + none), 9);
    expect(chanceOf(['P0113', 'P0118'], 'air')).toBeCloseTo(weights.air / (listed + none), 9);
    expect(chanceOf(['P0113', 'P0118'], null)).toBeCloseTo(0.05, 9);
  });

  test('leave a single code, and two codes of one circuit, to their own evidence', () => {
    const alone = 0.45 + 0.45 * 0.05 + 0.05 + 0.05;
    expect(chanceOf(['P0113'], 'air')).toBeCloseTo(0.45 / alone, 9);
    const same = 0.45 + 0.45 * 0.05 ** 2 + 0.05 + 0.05;
    expect(chanceOf(['P0113', 'P0114'], 'air')).toBeCloseTo(0.45 / same, 9);
  });

  test('count a code that speaks of no circuit beside them', () => {
    expect(chanceOf(['P0113', 'P0118', 'P0111'], 'air')).toBeGreaterThan(chanceOf(['P0113', 'P0118'], 'air'));
  });

  test('say the same in any order, and named twice', () => {
    const once = belief({ codes: ['P0113', 'P0118', 'P0111'] }, sensors).causes;
    expect(belief({ codes: ['P0118', 'P0111', 'P0113', 'P0118'] }, sensors).causes).toEqual(once);
  });

  test('do not count against a shared supply that each code alone made unlikely', () => {
    const injectors = knowledge({
      families: [family('injectors', { winding: 0.6, feed: 0.1, loom: 0.2 })],
      causes: { winding: cause(), feed: cause({ otherCircuits: 0.85 }), loom: cause({ otherCircuits: 0.35 }) },
      codes: Object.fromEntries(
        [1, 2, 3, 4].map((cylinder) => [
          `P020${cylinder}`,
          { family: 'injectors', cylinder, circuit: `injector-cylinder-${cylinder}`, evidence: { feed: 0.3 } },
        ]),
      ),
    });
    const codes = ['P0201', 'P0202', 'P0203', 'P0204'];
    const feed = codes.map((_, count) => chanceOf(codes.slice(0, count + 1), 'feed', injectors));
    expect(feed[0]).toBeLessThan(0.05);
    expect(feed).toEqual([...feed].sort((a, b) => a - b));
    expect(feed[3]).toBeGreaterThan(0.6);
  });

  test('never make a cause certain or impossible', () => {
    const factor = fc.double({ min: 0.02, max: 50, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.record({ a: factor, b: factor, c: factor }), { minLength: 2, maxLength: 6 }),
        fc.double({ min: 0, max: 0.95, noNaN: true }),
        (rows, otherCircuits) => {
          const facts = knowledge({
            families: [family('f', { a: 0.5, b: 0.3, c: 0.1 })],
            causes: { a: cause({ otherCircuits }), b: cause(), c: cause() },
            codes: Object.fromEntries(rows.map((evidence, index) => [`P000${index}`, { family: 'f', circuit: `plug-${index}`, evidence }])),
          });
          const now = belief({ codes: rows.map((_, index) => `P000${index}`) }, facts);
          expect(now.causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
          for (const { probability } of now.causes) expect(probability).toBeGreaterThan(0);
          expect(
            chanceOf(
              rows.map((_, index) => `P000${index}`),
              null,
              facts,
            ),
          ).toBeCloseTo(0.1, 9);
        },
      ),
    );
  });
});

describe('codes of circuits in several families', () => {
  /** Each family has its own sensor; wet plugs and the feed stand in both, but only the feed reaches from one to the other. */
  const facts = knowledge({
    families: [
      family('purge', { valve: 0.6, 'wet-plug': 0.2, feed: 0.1 }),
      family('recirculation', { motor: 0.6, 'wet-plug': 0.2, feed: 0.1 }),
    ],
    causes: { valve: cause(), motor: cause(), 'wet-plug': cause({ otherCircuits: 0.1 }), feed: cause({ otherCircuits: 0.8 }) },
    codes: {
      P0443: { family: 'purge', circuit: 'purge-valve' },
      P0403: { family: 'recirculation', circuit: 'recirculation-valve' },
      P0441: { family: 'purge' },
      P0401: { family: 'recirculation' },
    },
  });

  test('ask of a cause in both whether it reaches from one to the other', () => {
    const ratio = (codes: string[]) => chanceOf(codes, 'wet-plug', facts) / chanceOf(codes, 'feed', facts);
    // By the prior alone the wet plug is twice as likely as the feed; it reaches the other circuit an eighth as often.
    expect(ratio(['P0441', 'P0401'])).toBeCloseTo(2, 9);
    expect(ratio(['P0443', 'P0403'])).toBeCloseTo(2 * (0.1 / 0.8), 9);
  });

  test('leave a cause of one family as the floor of the prior has it', () => {
    const ratio = (codes: string[]) => chanceOf(codes, 'valve', facts) / chanceOf(codes, 'motor', facts);
    expect(ratio(['P0443', 'P0403'])).toBeCloseTo(ratio(['P0441', 'P0401']), 9);
  });

  test('change nothing while only one of the families names a circuit', () => {
    expect(belief({ codes: ['P0443', 'P0401'] }, facts).causes).toEqual(belief({ codes: ['P0441', 'P0401'] }, facts).causes);
  });
});
