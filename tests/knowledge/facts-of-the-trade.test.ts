import { describe, expect, test } from 'vitest';
import { knowledgeOrExit } from '../../scripts/content/knowledge.ts';
import { belief } from '../../src/engine/belief/index.ts';
import type { Case } from '../../src/engine/case.ts';

const { knowledge } = knowledgeOrExit();
const chances = (situation: Case) => new Map(belief(situation, knowledge).causes.map(({ id, probability }) => [id, probability]));
const first = (situation: Case) => belief(situation, knowledge).causes[0]!.id;
const inline4 = { cylinders: 4, layout: 'inline', firingOrder: [1, 3, 4, 2] } as const;

describe('what the trees say is what the trade knows (common practice, no source, unless one is named)', () => {
  test('two misfiring cylinders that share a coil point at the coil before two of anything else', () => {
    const pair = chances({ codes: ['P0301', 'P0304'], engine: { ...inline4, ignition: 'waste-spark' } });
    expect(first({ codes: ['P0301', 'P0304'], engine: { ...inline4, ignition: 'waste-spark' } })).toBe('failed-paired-coil');
    expect(pair.get('failed-paired-coil')).toBeGreaterThan(3 * (pair.get('worn-spark-plugs') ?? 0));
  });
  test('two that do not share a coil do not', () => {
    expect(chances({ codes: ['P0301', 'P0303'], engine: { ...inline4, ignition: 'waste-spark' } }).get('failed-paired-coil')).toBeLessThan(
      0.1,
    );
  });
  test('two neighbours raise a head gasket blown between them', () => {
    const gasket = (codes: string[]) =>
      chances({ codes, engine: { ...inline4, ignition: 'coil-on-plug' } }).get('head-gasket-between-cylinders')!;
    expect(gasket(['P0303', 'P0304'])).toBeGreaterThan(2 * gasket(['P0301', 'P0304']));
  });
  test('a recirculation valve held open by carbon shakes the idle and logs misfires on several cylinders', () => {
    const told: Case = {
      codes: ['P0300'],
      engine: { recirculation: 'vacuum', ...inline4 },
      symptoms: { 'shakes-at-stop-light': 'present', 'stalls-at-stop': 'present' },
      conditions: { 'at-idle': 'present', 'under-load': 'absent' },
      trims: { idleBank1Percent: 3, at2500Bank1Percent: 2 },
    };
    expect(first(told)).toBe('recirculation-valve-held-open');
  });
  test('low flow comes from blocked passages more often than from the valve', () => {
    const flow = chances({ codes: ['P0401'] });
    expect(flow.get('recirculation-passages-blocked')).toBeGreaterThan(2 * (flow.get('recirculation-valve-stuck-shut') ?? 0));
  });
  test('low flow whose valve was already replaced leaves the passages', () => {
    expect(first({ codes: ['P0401'], replaced: ['recirculation-valve'] })).toBe('recirculation-passages-blocked');
  });
  test('a trim error that shrinks with airflow speaks for a vacuum leak, one that grows for delivery', () => {
    const engine = { 'air-metering': 'mass-air-flow' };
    const shrinks = chances({ codes: ['P0171'], engine, trims: { idleBank1Percent: 24, at2500Bank1Percent: 7 } });
    const grows = chances({ codes: ['P0171'], engine, trims: { idleBank1Percent: 6, at2500Bank1Percent: 19 } });
    const leaks = ['vacuum-hose-leak', 'intake-gasket-leak', 'crankcase-ventilation-leak'];
    const delivery = ['weak-fuel-pump', 'clogged-fuel-filter'];
    const sum = (belief: Map<string | null, number>, ids: string[]) => ids.reduce((total, id) => total + (belief.get(id) ?? 0), 0);
    expect(sum(shrinks, leaks)).toBeGreaterThan(10 * sum(shrinks, delivery));
    expect(sum(grows, delivery)).toBeGreaterThan(3 * sum(grows, leaks));
  });
  test('the work done last is strong evidence: leads crossed after plug work', () => {
    const engine = { ...inline4, ignition: 'waste-spark' };
    const before = chances({ codes: ['P0300'], engine }).get('crossed-plug-leads')!;
    const after = chances({ codes: ['P0300'], engine: { ...engine, recentWork: ['plugs-leads-coils'] } }).get('crossed-plug-leads')!;
    expect(after).toBeGreaterThan(5 * before);
  });
  test('a replaced part keeps its early-failure chance', () => {
    const coil = chances({ codes: ['P0301'], engine: { ignition: 'coil-on-plug' }, replaced: ['ignition-coil'] }).get(
      'failed-coil-on-plug',
    )!;
    expect(coil).toBeGreaterThan(0);
    expect(coil).toBeLessThan(0.1);
  });
  test('both banks lean point at what both share, one bank at its own', () => {
    const engine = { layout: 'v', 'air-metering': 'mass-air-flow' };
    const ratio = (codes: string[]) => {
      const belief = chances({ codes, engine });
      return (belief.get('dirty-air-flow-sensor') ?? 0) / (belief.get('exhaust-leak-ahead-of-sensor') ?? 1);
    };
    expect(ratio(['P0171', 'P0174'])).toBeGreaterThan(3 * ratio(['P0171']));
  });
});

describe('titles agree in meaning with the generic list (read in an open engine-controller firmware; SAE J2012 / ISO 15031-6)', () => {
  test.each([
    ['P0101', /air.?flow|flow/i],
    ['P0106', /pressure/i],
    ['P0113', /intake air/i],
    ['P0117', /coolant/i],
    ['P0122', /throttle/i],
    ['P0128', /thermostat|coolant/i],
    ['P0133', /slow/i],
    ['P0135', /heater/i],
    ['P0141', /heater/i],
    ['P0171', /lean/i],
    ['P0172', /rich/i],
    ['P0174', /lean/i],
    ['P0201', /injector/i],
    ['P0300', /misfire/i],
    ['P0304', /cylinder 4/i],
    ['P0312', /cylinder 12/i],
    ['P0325', /knock/i],
    ['P0335', /crank/i],
    ['P0340', /cam/i],
    ['P0351', /coil/i],
    ['P0401', /recirculation/i],
    ['P0402', /recirculation/i],
    ['P0411', /secondary air/i],
    ['P0420', /catal/i],
    ['P0430', /catal/i],
    ['P0442', /leak/i],
    ['P0443', /purge/i],
    ['P0446', /vent/i],
    ['P0455', /leak/i],
    ['P0456', /leak/i],
    ['P0506', /idle/i],
    ['P0562', /voltage/i],
  ])('%s', (code, words) => {
    expect(knowledge.codes[code]?.title).toMatch(words);
  });
  test.each([
    ['P0171', 1],
    ['P0174', 2],
    ['P0420', 1],
    ['P0430', 2],
    ['P0133', 1],
    ['P0153', 2],
  ])('%s names bank %i', (code, bank) => {
    expect(knowledge.codes[code]?.bank).toBe(bank);
  });
  test('every generic misfire code names its cylinder', () => {
    for (let cylinder = 1; cylinder <= 12; cylinder += 1)
      expect(knowledge.codes[`P03${String(cylinder).padStart(2, '0')}`]?.cylinder).toBe(cylinder);
  });
});

describe('the floor of the knowledge', () => {
  test('at least 130 causes, 170 checks, 60 symptoms and every listed range of codes', () => {
    expect(Object.keys(knowledge.causes).length).toBeGreaterThanOrEqual(130);
    expect(Object.keys(knowledge.checks).length).toBeGreaterThanOrEqual(170);
    expect(Object.keys(knowledge.symptoms).length).toBeGreaterThanOrEqual(60);
    const wanted = [
      'P0100',
      'P0109',
      'P0110',
      'P0119',
      'P0125',
      'P0128',
      'P0030',
      'P0064',
      'P0130',
      'P0167',
      'P0200',
      'P0212',
      'P0300',
      'P0312',
      'P0324',
      'P0334',
      'P0335',
      'P0349',
      'P0350',
      'P0362',
      'P0010',
      'P0025',
      'P0400',
      'P0409',
      'P0410',
      'P0419',
      'P0420',
      'P0430',
      'P0440',
      'P0457',
      'P0505',
      'P0507',
      'P0087',
      'P0190',
      'P0230',
      'P0560',
      'P0563',
      'P0600',
      'P0607',
      'U0100',
      'P2135',
    ];
    expect(wanted.filter((code) => !knowledge.codes[code])).toEqual([]);
  });
});
