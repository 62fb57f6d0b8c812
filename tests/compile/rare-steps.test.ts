import { describe, expect, test } from 'vitest';
import { rareSteps } from '../../src/compile/rare-steps.ts';

const order = (...settles: number[]) => [
  ...settles.map((chance) => ({ kind: 'check', settles: chance })),
  { kind: 'hand-over', settles: 0 },
];

describe('the tail of an order', () => {
  test('three steps or more that together settle under one percent are folded, handing over stays', () => {
    expect(rareSteps(order(0.5, 0.2, 0.004, 0.003, 0.002))).toEqual([2, 5]);
  });
  test('a tail that together settles one percent is not', () => {
    expect(rareSteps(order(0.5, 0.2, 0.02, 0.004, 0.003, 0.002))).toEqual([3, 6]);
    expect(rareSteps(order(0.5, 0.004, 0.004, 0.004))).toEqual([4, 4]);
  });
  test('two are not worth folding, and the first step never is', () => {
    expect(rareSteps(order(0.5, 0.001, 0.001))).toEqual([3, 3]);
    expect(rareSteps(order(0.001, 0.001, 0.001, 0.001))).toEqual([1, 4]);
  });
  test('an order without handing over folds up to its end', () => {
    expect(rareSteps(order(0.5, 0.001, 0.001, 0.001).slice(0, -1))).toEqual([1, 4]);
  });
});
