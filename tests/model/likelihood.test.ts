import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asNumber, certaintyFloor, clamp, completeRow, rowFault } from '../../src/model/likelihood.ts';
import { verbalScale } from '../../src/model/schema/scalars.ts';

const outcomes = ['good', 'fair', 'bad'];
const sum = (row: readonly number[]) => row.reduce((total, chance) => total + chance, 0);

describe('the verbal scale', () => {
  // Renooij & Witteman 1999, Int. J. Approximate Reasoning 22:169-194.
  it('has the published numbers', () => {
    expect(verbalScale).toEqual({
      certain: 1,
      probable: 0.85,
      expected: 0.75,
      'fifty-fifty': 0.5,
      uncertain: 0.25,
      improbable: 0.15,
      impossible: 0,
    });
  });

  it('is clamped before it multiplies a belief', () => {
    expect(clamp(asNumber('certain'))).toBe(1 - certaintyFloor);
    expect(clamp(asNumber('impossible'))).toBe(certaintyFloor);
  });
});

describe('a completed row', () => {
  it('gives the one outcome left out what the others leave', () => {
    const row = completeRow(['good', 'bad'], { bad: 'probable' }, null);
    expect(row[0]).toBeCloseTo(0.15, 12);
    expect(row[1]).toBeCloseTo(0.85, 12);
  });

  it('shares the rest in the proportions of "otherwise"', () => {
    const base = completeRow(outcomes, { fair: 0.2, bad: 0.2 }, null);
    const row = completeRow(outcomes, { bad: 0.6 }, base);
    // 0.4 is left for good : fair = 0.6 : 0.2.
    expect(row[0]).toBeCloseTo(0.3, 12);
    expect(row[1]).toBeCloseTo(0.1, 12);
  });

  const partial = fc.dictionary(fc.constantFrom(...outcomes), fc.double({ min: 0, max: 1, noNaN: true }));
  const base = fc
    .tuple(
      fc.double({ min: 0.01, max: 1, noNaN: true }),
      fc.double({ min: 0.01, max: 1, noNaN: true }),
      fc.double({ min: 0.01, max: 1, noNaN: true }),
    )
    .map((row) => row.map((x) => x / sum(row)));

  it('sums to 1, has no zero and no certainty, whatever was written', () => {
    fc.assert(
      fc.property(partial, fc.option(base), (row, otherwise) => {
        const full = completeRow(outcomes, row, otherwise);
        expect(full).toHaveLength(3);
        expect(sum(full)).toBeCloseTo(1, 12);
        for (const chance of full) {
          expect(chance).toBeGreaterThan(certaintyFloor / 3);
          expect(chance).toBeLessThan(1);
        }
      }),
      { seed: 11 },
    );
  });

  it('keeps what was written when all outcomes were and they sum to 1', () => {
    fc.assert(
      fc.property(base, (row) => {
        const full = completeRow(outcomes, { good: row[0]!, fair: row[1]!, bad: row[2]! }, null);
        full.forEach((chance, index) => {
          expect(Math.abs(chance - row[index]!)).toBeLessThan(0.006);
        });
      }),
      { seed: 12 },
    );
  });

  it('has a fault exactly when its numbers cannot be a distribution', () => {
    expect(rowFault(outcomes, { good: 0.5, fair: 0.3, bad: 0.2 }, null)).toBeNull();
    expect(rowFault(outcomes, { good: 0.5, fair: 0.3, bad: 0.3 }, null)).toBe('The chances of all 3 outcomes sum to 1.1, not to 1.');
    expect(rowFault(outcomes, { good: 0.7, fair: 0.6 }, null)).toBe('The named chances sum to 1.3, more than 1.');
    expect(rowFault(outcomes, { good: 0.7 }, null)).toBe('"otherwise" leaves 2 outcomes open; only one can take the rest.');
    expect(rowFault(outcomes, { good: 0.7 }, [0.4, 0.3, 0.3])).toBeNull();
    expect(rowFault(outcomes, {}, null)).toBe('The row names no outcome.');
  });
});
