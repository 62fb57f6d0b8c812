import { describe, expect, test } from 'vitest';
import { conditionsOfFrame } from '../../../src/engine/belief/freeze-frame.ts';
import type { FreezeFrame } from '../../../src/engine/case.ts';
import { knowledge } from '../tiny-knowledge.ts';

const condition = (id: string, freezeFrame: Record<string, { above?: number; below?: number }>) => ({
  id,
  title: id,
  otherwise: 0.1,
  freezeFrame,
});
const facts = knowledge({
  families: [],
  causes: {},
  rest: {
    conditions: {
      asked: condition('asked', {}),
      cold: condition('cold', { coolantCelsius: { below: 40 } }),
      climbing: condition('climbing', { loadPercent: { above: 70 }, vehicleSpeedKmh: { above: 20, below: 80 } }),
    },
  },
});
const held = (frame: FreezeFrame | undefined) => conditionsOfFrame(frame, facts);

describe('conditions that a freeze frame says held', () => {
  test('no frame, and one without numbers, say nothing', () => {
    expect(held(undefined)).toEqual([]);
    expect(held({})).toEqual([]);
  });
  test('a number must be inside its bound, not at it', () => {
    expect(held({ coolantCelsius: 39.9 })).toEqual(['cold']);
    expect(held({ coolantCelsius: 40 })).toEqual([]);
    expect(held({ coolantCelsius: 90 })).toEqual([]);
  });
  test('zero is a number', () => expect(held({ coolantCelsius: 0 })).toEqual(['cold']));
  test.each([
    [71, 50, true],
    [70, 50, false],
    [71, 20, false],
    [71, 80, false],
    [30, 50, false],
  ])('load %d at %d km/h: all bounds must hold', (loadPercent, vehicleSpeedKmh, climbs) => {
    expect(held({ loadPercent, vehicleSpeedKmh })).toEqual(climbs ? ['climbing'] : []);
  });
  test('where one number is missing nothing is concluded', () => expect(held({ loadPercent: 90 })).toEqual([]));
  test('several conditions may hold at once', () =>
    expect(held({ coolantCelsius: 10, loadPercent: 90, vehicleSpeedKmh: 50 })).toEqual(['cold', 'climbing']));
});
