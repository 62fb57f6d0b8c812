import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { expect, test } from 'vitest';
import { builtSite } from '../browser.ts';
import { allFiles } from './built-pages.ts';

const read = (path: string) => JSON.parse(readFileSync(join(builtSite, path), 'utf8')) as Record<string, unknown>;

test('every exported file keeps to the schema that it names', () => {
  const ajv = new Ajv({ strict: false, allErrors: true });
  const files = allFiles().filter((path) => /^\/data\/(knowledge|families\/.*|orders\/.*)\.json$/.test(path));
  expect(files.length).toBeGreaterThan(100);
  for (const path of files) {
    const value = read(path);
    const valid = ajv.validate(read(value.schema as string), value);
    expect(valid, `${path}: ${ajv.errorsText(ajv.errors?.slice(0, 3))}`).toBe(true);
  }
});

test('an order adds up: steps settle what the chance says, and no order shown is cheaper than the bound', () => {
  for (const path of allFiles().filter((file) => /^\/data\/orders\/p03.*\.json$/.test(file))) {
    const order = read(path) as { steps: { settles: number; cumulativeChance: number }[]; lowerBound: number; expectedCost: number };
    const sum = order.steps.reduce((total, step) => total + step.settles, 0);
    expect(order.steps.at(-1)!.cumulativeChance).toBeCloseTo(sum, 3);
    expect(order.expectedCost).toBeGreaterThanOrEqual(order.lowerBound - 1e-6);
  }
});
