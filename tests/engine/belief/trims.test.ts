import { describe, expect, test } from 'vitest';
import { trimDensity, trimLikelihood, trimPoints } from '../../../src/engine/belief/trims.ts';
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
