import { describe, expect, test } from 'vitest';
import { readCase } from '../../src/model/case-file.ts';
import { cause, check, family, knowledge } from '../engine/tiny-knowledge.ts';

const facts = knowledge({
  families: [family('misfire', { 'worn-spark-plugs': 0.9 })],
  causes: { 'worn-spark-plugs': cause() },
  checks: [check('swap-coil', { 'worn-spark-plugs': 0.5 }, 0.1)],
  codes: { P0301: { family: 'misfire', cylinder: 1 } },
  rest: {
    symptoms: { 'shakes-at-stop-light': { id: 'shakes-at-stop-light', title: 'Shakes at a stop light', otherwise: 0.2 } },
    traits: { ignition: { id: 'ignition', title: 'Ignition', values: { 'coil-on-plug': 0.7, 'waste-spark': 0.3 }, ageing: {} } },
    recentWork: { battery: { id: 'battery', title: 'Battery' } },
  },
});

describe('a case from outside', () => {
  test('every key is optional', () => {
    expect(readCase({}, facts)).toEqual({ situation: { codes: [], engine: {} }, faults: [], codesWithoutTree: [] });
  });
  test('codes are read in any case', () => {
    expect(readCase({ codes: [' p0301'] }, facts).situation?.codes).toEqual(['P0301']);
  });
  test('a code without a tree is kept apart, not refused', () => {
    expect(readCase({ codes: ['P0301', 'U0100'] }, facts)).toMatchObject({
      situation: { codes: ['P0301'] },
      codesWithoutTree: ['U0100'],
      faults: [],
    });
  });
  test.each([
    [{ codes: ['P03'] }, /"P03" is not a code/],
    [{ symptoms: { 'shakes-at-stop-lights': 'present' } }, /nearest known one is "shakes-at-stop-light"/],
    [{ symptoms: { 'shakes-at-stop-light': 'yes' } }, /symptoms\.shakes-at-stop-light/],
    [{ engine: { ignition: 'wastespark' } }, /nearest known one is "waste-spark"/],
    [{ engine: { ignitoin: 'waste-spark' } }, /nearest known one is "ignition"/],
    [{ engine: { recentWork: ['batery'] } }, /nearest known one is "battery"/],
    [{ engine: { cylinders: 4, firingOrder: [1, 2, 3] } }, /has 3 cylinders, engine\.cylinders says 4/],
    [{ engine: { firingOrder: [1, 1, 2] } }, /stands twice/],
    [{ results: [{ check: 'swap-coils', outcome: 'good' }] }, /nearest known one is "swap-coil"/],
    [{ results: [{ check: 'swap-coil', outcome: 'goood' }] }, /nearest known one is "good"/],
    [{ replaced: ['worn-sparkplugs'] }, /nearest known one is "worn-spark-plugs"/],
    [{ freezeFrame: { engineSpeed: 800 } }, /nearest known one is "engineSpeedRpm"/],
    [{ code: ['P0301'] }, /the key "code" is not known.*"codes"/],
    [{ hourlyRate: -1 }, /hourlyRate/],
    ['P0301', /the case/],
    [null, /the case/],
  ])('%j is refused with words that help', (value, words) => {
    const { situation, faults } = readCase(value, facts);
    expect(situation).toBeNull();
    expect(faults.join('\n')).toMatch(words);
  });
  test('all faults are told at once', () => {
    expect(readCase({ codes: ['X'], tools: ['hammer'], results: [{ check: 'x', outcome: 'y' }] }, facts).faults).toHaveLength(3);
  });
  test('"unknown" as a trait is the same as leaving it out', () => {
    expect(readCase({ engine: { ignition: 'unknown' } }, facts).situation?.engine).toEqual({});
  });
});
