import { describe, expect, test } from 'vitest';
import { trimDensity, trimLikelihood, trimPoints, untouchedSignature } from '../../../src/engine/belief/trims.ts';
import type { TrimSignature } from '../../../src/engine/knowledge.ts';

const leak: TrimSignature = {
  id: 'leak',
  title: 'Air behind the meter',
  atIdle: { meanPercent: 20, sdPercent: 8 },
  change: { meanPercent: -13, sdPercent: 6 },
};
const delivery: TrimSignature = {
  id: 'delivery',
  title: 'Too little fuel',
  atIdle: { meanPercent: 7, sdPercent: 6 },
  change: { meanPercent: 9, sdPercent: 6 },
};
const at = (idle: number, fast: number) => trimPoints({ idleBank1Percent: idle, at2500Bank1Percent: fast }, undefined);

describe('fuel trims at two speeds (common practice, no source: a leak shrinks with airflow, delivery grows)', () => {
  test('high at idle and near normal at 2,500 rpm speaks for unmetered air', () => {
    expect(trimDensity(at(22, 6), leak) / trimDensity(at(22, 6), delivery)).toBeGreaterThan(10);
  });
  test('near normal at idle and high at 2,500 rpm speaks for delivery', () => {
    expect(trimDensity(at(6, 19), delivery) / trimDensity(at(6, 19), leak)).toBeGreaterThan(10);
  });
  test('a freeze frame at idle counts as idle, one at 2,500 rpm as speed', () => {
    expect(trimPoints(undefined, { engineSpeedRpm: 800, shortTrim1Percent: 5, longTrim1Percent: 12 })).toEqual([
      { bank: 1, speedWeight: 0, percent: 17 },
    ]);
    expect(trimPoints(undefined, { engineSpeedRpm: 2500, longTrim2Percent: 12 })).toEqual([{ bank: 2, speedWeight: 1, percent: 12 }]);
  });
  test('live readings stand before the frozen ones of the same bank', () => {
    expect(trimPoints({ idleBank1Percent: 3 }, { engineSpeedRpm: 800, longTrim1Percent: 25 })).toEqual([
      { bank: 1, speedWeight: 0, percent: 3 },
    ]);
  });
  test('a reading that fits nothing settles nothing', () => {
    const absurd = at(-95, 95);
    expect(trimDensity(absurd, leak) / trimDensity(absurd, delivery)).toBeCloseTo(1, 6);
  });
});

describe('one bank or both', () => {
  const oneBank = trimPoints({ idleBank1Percent: 20, idleBank2Percent: 1 }, undefined);
  const bothBanks = trimPoints({ idleBank1Percent: 20, idleBank2Percent: 19 }, undefined);
  test('a bank gasket explains one lean bank, a common leak explains two', () => {
    expect(trimLikelihood(oneBank, leak, 0.95, null)).toBeGreaterThan(3 * trimLikelihood(oneBank, leak, 0.1, null));
    expect(trimLikelihood(bothBanks, leak, 0.1, null)).toBeGreaterThan(3 * trimLikelihood(bothBanks, leak, 0.95, null));
  });
  test('where the code names the other bank, a normal reading here is what one expects', () => {
    const quiet = trimPoints({ idleBank1Percent: 1, at2500Bank1Percent: 1 }, undefined);
    expect(trimLikelihood(quiet, leak, 0.95, 2)).toBeGreaterThan(3 * trimLikelihood(quiet, leak, 0.95, 1));
  });
});

describe('the densities, by hand', () => {
  const normal = (x: number, mean: number, sd: number) => Math.exp(-(((x - mean) / sd) ** 2) / 2) / (sd * Math.sqrt(2 * Math.PI));
  const mixed = (density: number) => 0.97 * density + 0.03 / 100;
  test('no point is no evidence', () => expect(trimDensity([], leak)).toBe(1));
  test('at idle: the signature, with the scatter of a reading beside its own', () => {
    const points = trimPoints({ idleBank1Percent: 14 }, undefined);
    expect(trimDensity(points, leak)).toBeCloseTo(mixed(normal(14, 20, Math.hypot(8, 2))), 12);
  });
  test('at both speeds: the change between them', () => {
    expect(trimDensity(at(22, 6), leak)).toBeCloseTo(
      mixed(normal(22, 20, Math.hypot(8, 2))) * mixed(normal(-16, -13, Math.hypot(6, 2))),
      12,
    );
  });
  test('at one speed between: the change counts in proportion to it', () => {
    // 1,650 rpm is halfway from 800 to 2,500.
    const points = trimPoints(undefined, { engineSpeedRpm: 1650, shortTrim1Percent: 3, longTrim1Percent: 8 });
    expect(points).toEqual([{ bank: 1, speedWeight: 0.5, percent: 11 }]);
    expect(trimDensity(points, leak)).toBeCloseTo(mixed(normal(11, 20 - 6.5, Math.hypot(8, 3, 2))), 12);
  });
  test('idle and a point between: half the change', () => {
    const points = [
      { bank: 1, speedWeight: 0, percent: 20 },
      { bank: 1, speedWeight: 0.5, percent: 12 },
    ] as const;
    expect(trimDensity(points, leak)).toBeCloseTo(mixed(normal(20, 20, Math.hypot(8, 2))) * mixed(normal(-8, -6.5, Math.hypot(3, 2))), 12);
  });
});

describe('which points are taken', () => {
  test('a frame without an engine speed counts as halfway, and speeds outside as the nearest end', () => {
    expect(trimPoints(undefined, { longTrim1Percent: 4 })).toEqual([{ bank: 1, speedWeight: 0.5, percent: 4 }]);
    expect(trimPoints(undefined, { engineSpeedRpm: 600, longTrim1Percent: 4 })[0]!.speedWeight).toBe(0);
    expect(trimPoints(undefined, { engineSpeedRpm: 4000, longTrim1Percent: 4 })[0]!.speedWeight).toBe(1);
  });
  test('a frame without trims gives none, and no number that is not one', () => {
    expect(trimPoints(undefined, { engineSpeedRpm: 900 })).toEqual([]);
    expect(trimPoints({ idleBank1Percent: Number.NaN, idleBank2Percent: Number.POSITIVE_INFINITY }, undefined)).toEqual([]);
  });
  test('a live reading of one bank leaves the frozen one of the other', () => {
    const points = trimPoints({ at2500Bank1Percent: 5 }, { engineSpeedRpm: 800, shortTrim1Percent: 9, shortTrim2Percent: 7 });
    expect(points).toEqual([
      { bank: 1, speedWeight: 1, percent: 5 },
      { bank: 2, speedWeight: 0, percent: 7 },
    ]);
  });
});

describe('the mixture over banks, by hand', () => {
  const first = trimPoints({ idleBank1Percent: 18 }, undefined);
  const second = trimPoints({ idleBank2Percent: 3 }, undefined);
  const all = [...first, ...second];
  const on = { first: trimDensity(first, leak), second: trimDensity(second, leak) };
  const off = { first: trimDensity(first, untouchedSignature), second: trimDensity(second, untouchedSignature) };
  const both = on.first * on.second;
  test('one bank read: it has the fault, unless the code names the other', () => {
    expect(trimLikelihood(first, leak, 0.3, null)).toBeCloseTo(on.first, 12);
    expect(trimLikelihood(first, leak, 0.3, 1)).toBeCloseTo(on.first, 12);
    expect(trimLikelihood(first, leak, 0.3, 2)).toBeCloseTo(0.3 * off.first + 0.7 * on.first, 12);
  });
  test.each([
    [1, on.first * off.second],
    [2, off.first * on.second],
    [null, (on.first * off.second + off.first * on.second) / 2],
  ] as const)('two banks read, code of bank %s', (bank, one) => {
    expect(trimLikelihood(all, leak, 0.3, bank)).toBeCloseTo(0.3 * one + 0.7 * both, 14);
  });
});
