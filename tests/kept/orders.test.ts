/** Orders that a build keeps: each for one problem, and never believed unseen. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { computeOrder, type Order, spineOf } from '../../src/compile/order.ts';
import { spine } from '../../src/engine/plan/index.ts';
import { keptOrder, orderFor, orderKey } from '../../src/kept/orders.ts';
import { keep, keptFolder, keyOf } from '../../src/kept/store.ts';
import { seeded } from '../engine/plan/seeded.ts';
import { smallModel } from '../engine/plan/small-model.ts';

const models = Array.from({ length: 20 }, (_, index) => smallModel(seeded(7000 + index)));
const budget = { plan: { nodes: 20 }, samples: 2, sample: { nodes: 5 } };
const used: string[] = [];
const keyOfTest = (name: string): string => {
  used.push(keyOf('a test', name));
  return used.at(-1)!;
};
afterEach(() => {
  for (const key of used.splice(0)) rmSync(join(keptFolder, 'orders', `${key}.json`), { force: true });
});

test('an order knows the spine of its policy, also after it has been written down and read', () => {
  for (const model of models) {
    const order = JSON.parse(JSON.stringify(computeOrder(model, budget))) as Order;
    expect(spineOf(order)).toEqual(spine(model, order.policy));
  }
});

test('every problem has a key of its own, and the same problem the same', () => {
  expect(new Set(models.map((model) => orderKey(model))).size).toBe(models.length);
  expect(orderKey(smallModel(seeded(7000)))).toBe(orderKey(models[0]!));
});

test('a number of the problem, or a name in it, makes another key', () => {
  const [model] = models;
  const dearer = { ...model!, handOverCost: model!.handOverCost + 1e-9 };
  const renamed = { ...model!, repairs: model!.repairs.map((repair) => ({ ...repair, id: `${repair.id}-b` })) };
  expect(new Set([model!, dearer, renamed].map((one) => orderKey(one))).size).toBe(3);
});

test('a kept order comes back when its policy costs what it says', () => {
  const model = models[0]!;
  const key = keyOfTest('honest');
  const order = computeOrder(model, budget);
  keep('orders', key, order);
  expect(keptOrder(model, key)).toEqual(JSON.parse(JSON.stringify(order)));
});

test('a kept order is nothing when its policy costs something else, or is one for another problem, or none at all', () => {
  const model = models[0]!;
  const order = computeOrder(model, budget);
  const others = {
    'a cost that is not its own': { ...order, expectedCost: order.expectedCost * 1.01 },
    'a check that is not in the problem': { ...order, policy: { kind: 'check', action: 99, cost: 1, next: [] } },
    'no policy': { ...order, policy: null },
  };
  for (const [what, other] of Object.entries(others)) {
    const key = keyOfTest(what);
    keep('orders', key, other);
    expect(keptOrder(model, key), what).toBeNull();
  }
});

test('what is not kept is computed, kept, and found again', () => {
  const model = models[1]!;
  const key = keyOfTest('computed');
  expect(keptOrder(model, key)).toBeNull();
  const order = orderFor(model, key);
  expect(keptOrder(model, key)).toEqual(JSON.parse(JSON.stringify(order)));
  expect(orderFor(model, key)).toBe(order);
});
