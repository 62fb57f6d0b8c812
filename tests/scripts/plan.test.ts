import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';

const run = (args: readonly string[], input = '') => {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['scripts/plan.ts', ...args], { input, encoding: 'utf8' });
  return { status, stdout, stderr };
};
const json = (situation: unknown) => {
  const { status, stdout, stderr } = run(['--case', '-', '--json'], JSON.stringify(situation));
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return JSON.parse(stdout) as {
    causes: { id: string; title: string; probability: number }[];
    steps: { kind: string; id: string; title: string; settles: number; minutes: number; money: number; cumulative: number }[];
    expectedCost: number;
    lowerBound: number;
    gap: number;
    comparisons: Record<string, { expectedCost: number }>;
  };
};

describe('npm run plan', () => {
  test('prints the order for a code with its figures and the other orders beside it', () => {
    const { status, stdout } = run(['p0301']);
    expect(status).toBe(0);
    expect(stdout).toContain('P0301: ');
    expect(stdout).toMatch(/Reckoned for the commonest engine\. .*Ignition type: one coil on each plug/);
    for (const word of ['settles', 'attended', 'money', 'so far', 'Expected total cost', 'gap', 'cheapest first', 'likeliest first'])
      expect(stdout).toContain(word);
  });

  test('answers a case on standard input as JSON', () => {
    const answer = json({
      codes: ['P0171'],
      engine: { layout: 'v', 'air-metering': 'mass-air-flow' },
      trims: { idleBank1Percent: 22, at2500Bank1Percent: 5 },
    });
    expect(answer.causes.reduce((sum, cause) => sum + cause.probability, 0)).toBeCloseTo(1, 4);
    expect(answer.steps.length).toBeGreaterThan(2);
    expect(answer.steps.at(-1)?.kind).toBe('hand-over');
    for (const [index, step] of answer.steps.entries()) {
      expect(Object.keys(step)).toEqual(['kind', 'id', 'title', 'settles', 'minutes', 'money', 'cumulative']);
      if (index > 0) expect(step.cumulative).toBeGreaterThanOrEqual(answer.steps[index - 1]!.cumulative);
    }
    expect(answer.lowerBound).toBeLessThanOrEqual(answer.expectedCost);
    expect(answer.gap).toBeCloseTo((answer.expectedCost - answer.lowerBound) / answer.lowerBound, 3);
    expect(answer.expectedCost).toBeLessThan(answer.comparisons['hand-over-at-once']!.expectedCost);
  });

  test('starts from a symptom alone', () => {
    const answer = json({ symptoms: { 'stalls-after-refuelling': 'present' } });
    expect(answer.causes[0]?.id).toBe('purge-valve-stuck-open');
  });

  test('lists every id that a case may name, with everyday synonyms', () => {
    const { stdout } = run(['--vocabulary', '--json']);
    const list = JSON.parse(stdout) as Record<string, { id: string; title: string; synonyms?: string[] }[]>;
    expect(Object.keys(list)).toEqual([
      'codes',
      'families',
      'causes',
      'checks',
      'symptoms',
      'conditions',
      'recentWork',
      'parts',
      'tools',
      'setUps',
      'engine',
      'freezeFrame',
      'trims',
    ]);
    expect(list['symptoms']!.length).toBeGreaterThanOrEqual(60);
    expect(list['symptoms']!.filter((symptom) => (symptom.synonyms?.length ?? 0) < 2)).toEqual([]);
  });

  test.each([
    [['--case', '-', '--json'], '{"symptoms":{"shakes-at-stop-lights":"present"}}', /nearest known one is "shakes-at-stop-light"/],
    [['--case', '-'], '{"codes":["P0301"', /Standard input is not JSON/],
    [['--case', 'no-such-file.json'], '', /could not be read/],
    [['P03'], '', /"P03" is not a code/],
    [[], '', /Name a code/],
    [['--case', '-'], '{}', /no code and no symptom/],
    [['--frobnicate'], '', /Use: npm run plan/],
  ])('%j refuses with code 2 and words that help', (args, input, words) => {
    const { status, stderr } = run(args, input);
    expect(status).toBe(2);
    expect(stderr).toMatch(words);
  });

  test('a code without a tree still gets its structure decoded, and the page says so plainly', () => {
    const { status, stdout } = run(['P1336', 'B1234']);
    expect(status).toBe(0);
    expect(stdout).toMatch(/P1336: powertrain code, defined by the maker.*no tree for it yet/);
    expect(stdout).toMatch(/B1234: body code/);
  });
});
