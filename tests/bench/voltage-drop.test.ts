import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { dropOf, usualLimits } from '../../src/bench/calc/voltage-drop.ts';

describe('voltage drop', () => {
  test('0.45 V at 180 A of 10.6 V is 4.2 percent, 2.5 milliohm and 81 W', () => {
    const drop = dropOf(10.6, 0.45, 180)!;
    expect(100 * drop.share).toBeCloseTo(4.245, 3);
    expect(1000 * drop.ohms!).toBeCloseTo(2.5, 12);
    expect(drop.lostWatts).toBeCloseTo(81, 12);
  });

  test('as two resistances in series: each takes its share of the supply (voltage divider)', () => {
    const positive = fc.double({ min: 0.001, max: 100, noNaN: true });
    fc.assert(
      fc.property(positive, positive, positive, (part, load, supply) => {
        const current = supply / (part + load);
        const drop = dropOf(supply, current * part, current)!;
        expect(drop.share).toBeCloseTo(part / (part + load), 9);
        expect(drop.ohms! / part).toBeCloseTo(1, 9);
        expect(drop.leftVolts / (current * load)).toBeCloseTo(1, 6);
      }),
    );
  });

  test('without a current there is a share but no resistance', () => {
    expect(dropOf(12, 0.3, null)).toMatchObject({ ohms: null, lostWatts: null });
  });

  test('a drop above the supply cannot be', () => {
    expect([dropOf(12, 12.1, 5), dropOf(0, 0, 5), dropOf(12, -0.1, 5)]).toEqual([null, null, null]);
  });

  test('limits that a check measures are those of the check', () => {
    const checked = usualLimits.filter(({ check }) => check !== null);
    expect(checked.length).toBeGreaterThanOrEqual(3);
    for (const { check, limitVolts } of checked) {
      const text = readFileSync(`content/checks/${check}.yaml`, 'utf8');
      const good = parse(text).outcomes.find(({ id }: { id: string }) => id === 'good');
      expect([good.when.below, ...[...good.title.matchAll(/[\d.]+(?= V)/g)].map(Number)], `${check} and ${limitVolts} V`).toContain(
        limitVolts,
      );
    }
  });
});
