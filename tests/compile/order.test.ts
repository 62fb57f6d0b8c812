import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { curveOf } from '../../src/compile/order.ts';
import { exampleShares, workedExample } from '../../src/compile/worked-example.ts';
import { keep, kept, keyOf } from '../../src/kept/store.ts';

describe('the curve of chance solved against cost', () => {
  test('rises only, starts at nothing and ends at all that is ever solved', () => {
    const curve = curveOf([
      { cost: 5, probability: 0.2, solved: true },
      { cost: 9, probability: 0.001, solved: true },
      { cost: 9, probability: 0.3, solved: false },
      { cost: 20, probability: 0.499, solved: true },
    ]);
    expect(curve).toEqual([
      [0, 0],
      [5, 0.2],
      [20, 0.7],
    ]);
  });
});

describe('the worked example of the guide', () => {
  const example = workedExample();
  test("follows Bayes' rule, reckoned by hand", () => {
    // 0.7 x 0.85 + 0.3 x 0.03 = 0.604; 0.595 / 0.604 = 0.985; 0.105 / 0.396 = 0.265
    expect(example.finds).toBeCloseTo(0.604, 12);
    expect(example.gasketWhenFound).toBeCloseTo(0.595 / 0.604, 12);
    expect(example.gasketWhenNot).toBeCloseTo(0.105 / 0.396, 12);
    expect(exampleShares.gasket + exampleShares.pump).toBe(1);
  });
  test('looks before it buys, and buys by what the look showed', () => {
    expect(example.first).toBe('Blow smoke into the intake');
    expect(example.branches.map(({ result, steps }) => [result, steps[0]])).toEqual([
      ['No smoke shows', 'Replace the weak fuel pump'],
      ['Smoke shows at the manifold', 'Renew the intake gasket'],
    ]);
  });
  test('its computed order is the cheapest of those shown', () => {
    for (const { expectedCost } of example.orders) expect(expectedCost).toBeGreaterThanOrEqual(example.expectedCost - 1e-9);
  });
});

describe('kept results', () => {
  const folder = mkdtempSync(join(tmpdir(), 'kept-'));
  const key = keyOf('a', 'b');
  const file = () => join(folder, 'kind', readdirSync(join(folder, 'kind')).find((name) => name.endsWith('.json'))!);

  test('come back as they were put', () => {
    keep('kind', key, { x: [1, 2] }, folder);
    expect(kept('kind', key, folder)).toEqual({ x: [1, 2] });
  });
  test('parts of a key do not run into each other', () => {
    expect(keyOf('ab', 'c')).not.toBe(keyOf('a', 'bc'));
  });
  test.each([
    ['cut short', (text: string) => text.slice(0, -3)],
    ['changed', (text: string) => text.replace('1', '7')],
    ['empty', () => ''],
    ['without its seal', (text: string) => text.slice(text.indexOf('\n') + 1)],
  ])('are passed over when they are %s', (_, damage) => {
    keep('kind', key, { x: [1, 2] }, folder);
    writeFileSync(file(), damage(readFileSync(file(), 'utf8')));
    expect(kept('kind', key, folder)).toBeNull();
  });
  test('are passed over under another name', () => {
    keep('kind', key, { x: [1, 2] }, folder);
    const other = keyOf('other');
    writeFileSync(join(folder, 'kind', `${other}.json`), readFileSync(file(), 'utf8'));
    expect(kept('kind', other, folder)).toBeNull();
  });
});
