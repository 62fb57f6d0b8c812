import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  afterClear,
  afterTrip,
  isWarmUpCycle,
  type LampState,
  lampDark,
  similarConditions,
  type Trip,
} from '../../../src/engine/proof/index.ts';

const failed: Trip = { monitor: 'failed', warmUp: true };
const passed: Trip = { monitor: 'passed', warmUp: true };
const notRun: Trip = { monitor: 'not-run', warmUp: true };
const drive = (state: LampState, ...trips: readonly Trip[]): LampState => trips.reduce(afterTrip, state);
const lit = drive(lampDark, failed, failed);

describe('lamp and codes, 40 CFR 86.1806-05 (d)(1) and (e)(3), 86.010-18 (b)(2) and (3)', () => {
  test('the first failing trip leaves a pending code, the next one lights the lamp', () => {
    expect(drive(lampDark, failed)).toMatchObject({ pending: true, stored: false, lamp: false, permanent: false });
    expect(lit).toMatchObject({ pending: true, stored: true, lamp: true, permanent: true });
  });

  test('a pending code goes after the next trip in which the monitor ran and passed, not before', () => {
    expect(drive(lampDark, failed, notRun).pending).toBe(true);
    expect(drive(lampDark, failed, passed)).toMatchObject({ pending: false, lamp: false });
  });

  test('the lamp goes out after three passing trips in sequence; trips without the monitor do not count', () => {
    expect(drive(lit, passed, passed).lamp).toBe(true);
    expect(drive(lit, passed, notRun, passed, notRun).lamp).toBe(true);
    expect(drive(lit, passed, notRun, passed, passed)).toMatchObject({ lamp: false, stored: true, permanent: false });
    expect(drive(lit, passed, passed, failed, passed, passed).lamp).toBe(true);
  });

  test('the stored code is erased after forty warm-ups with the lamp off', () => {
    const off = drive(lit, passed, passed, passed);
    const warmUps = (count: number) => Array.from({ length: count }, () => passed);
    expect(drive(off, ...warmUps(39)).stored).toBe(true);
    expect(drive(off, ...warmUps(40)).stored).toBe(false);
    expect(drive(off, ...warmUps(39), { monitor: 'passed', warmUp: false }).stored).toBe(true);
  });

  test('clearing leaves the permanent code; one passing trip then erases it', () => {
    const cleared = afterClear(lit);
    expect(cleared).toMatchObject({ lamp: false, stored: false, pending: false, permanent: true });
    expect(drive(cleared, notRun).permanent).toBe(true);
    expect(drive(cleared, passed).permanent).toBe(false);
    expect(drive(cleared, failed, failed)).toMatchObject({ lamp: true, permanent: true });
  });

  test('whatever is driven, a lit lamp has a stored and a permanent code behind it', () => {
    const trip = fc.record({ monitor: fc.constantFrom('not-run', 'passed', 'failed'), warmUp: fc.boolean() }) as fc.Arbitrary<Trip>;
    fc.assert(
      fc.property(fc.array(trip, { maxLength: 120 }), (trips) => {
        const end = drive(lampDark, ...trips);
        if (end.lamp) expect(end).toMatchObject({ stored: true, permanent: true });
      }),
    );
  });
});

test('similar conditions: within 375 rpm, 20 percent load and the same warm-up status', () => {
  const frozen = { engineSpeedRpm: 2000, loadPercent: 40, warm: true };
  expect(similarConditions(frozen, { engineSpeedRpm: 2375, loadPercent: 60, warm: true })).toBe(true);
  expect(similarConditions(frozen, { engineSpeedRpm: 2376, loadPercent: 40, warm: true })).toBe(false);
  expect(similarConditions(frozen, { engineSpeedRpm: 2000, loadPercent: 61, warm: true })).toBe(false);
  expect(similarConditions(frozen, { engineSpeedRpm: 2000, loadPercent: 40, warm: false })).toBe(false);
});

test('a warm-up cycle rises by 22 K to at least 71 degrees (40 and 160 degF)', () => {
  expect(isWarmUpCycle(20, 85)).toBe(true);
  expect(isWarmUpCycle(60, 80)).toBe(false);
  expect(isWarmUpCycle(10, 65)).toBe(false);
  expect(isWarmUpCycle(20, 71.1)).toBe(true);
  expect(isWarmUpCycle(20, 71)).toBe(false);
  // A rise of just that much, in numbers that a binary fraction holds exactly.
  expect(isWarmUpCycle(80 - 22.2, 80)).toBe(true);
  expect(isWarmUpCycle(80 - 22, 80)).toBe(false);
});
