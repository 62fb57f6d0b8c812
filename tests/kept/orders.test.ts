/** Orders that a build keeps: each for one problem, and never believed unseen. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { flowOf } from '../../src/compile/flow.ts';
import { computeOrder, type Order, spineOf } from '../../src/compile/order.ts';
import { shownOrder } from '../../src/compile/shown-order.ts';
import type { Knowledge } from '../../src/engine/knowledge.ts';
import { type PolicyNode, spine, type TroubleshootingModel } from '../../src/engine/plan/index.ts';
import { keptOrder, orderKey, solveOrder } from '../../src/kept/orders.ts';
import { keep, kept, keptFolder, keyOf } from '../../src/kept/store.ts';
import { seeded } from '../engine/plan/seeded.ts';
import { smallModel } from '../engine/plan/small-model.ts';

const models = Array.from({ length: 20 }, (_, index) => smallModel(seeded(7000 + index)));
const budget = { plan: { nodes: 20 }, samples: 2, sample: { nodes: 5 } };
const written = (order: Order): Order => JSON.parse(JSON.stringify(order)) as Order;
const used: string[] = [];
const keyOfTest = (name: string): string => {
  used.push(keyOf('a test', name));
  return used.at(-1)!;
};
afterEach(() => {
  for (const key of used.splice(0))
    for (const kind of ['orders', 'shown-orders']) rmSync(join(keptFolder, kind, `${key}.json`), { force: true });
});

test('an order knows the spine of its policy, also after it has been written down and read', () => {
  for (const model of models) {
    const order = written(computeOrder(model, budget));
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
  expect(keptOrder(model, key)).toEqual(written(order));
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

test('what is not kept is computed and kept, whole and as pages show it', () => {
  const model = models[1]!;
  const key = keyOfTest('computed');
  expect(keptOrder(model, key)).toBeNull();
  const order = solveOrder(model, key);
  expect(keptOrder(model, key)).toEqual(written(order));
  expect(kept('shown-orders', key)).toEqual(written(shownOrder(model, order)));
});

describe('what pages show of an order', () => {
  const names = (ids: readonly { readonly id: string }[]) => ids.map(({ id }) => id);
  const tiny = (model: TroubleshootingModel): Knowledge => {
    const checks = model.checks.map(({ id, likelihood }) => [
      id,
      { title: id, outcomes: likelihood[0]!.map((_, outcome) => ({ id: `${outcome}`, title: `${outcome}` })) },
    ]);
    const causes = model.repairs.map(({ id }) => [id, { repair: { title: id } }]);
    return { checks: Object.fromEntries(checks), causes: Object.fromEntries(causes) } as unknown as Knowledge;
  };

  test('gives the same flowchart as the whole, and the same next step after every result of the spine', () => {
    let smaller = 0;
    for (const model of models) {
      const whole = computeOrder(model, budget);
      const part = shownOrder(model, whole);
      const problem = { model, checkIds: names(model.checks), repairIds: names(model.repairs) };
      const knowledge = tiny(model);
      expect(flowOf(problem, part.policy, knowledge)).toEqual(flowOf(problem, whole.policy, knowledge));
      let [a, b]: (PolicyNode | null)[] = [whole.policy, part.policy];
      for (const { outcome } of spineOf(whole)) {
        expect(headsOf(b!)).toEqual(headsOf(a!));
        [a, b] = [nextOf(a!, outcome), nextOf(b!, outcome)];
      }
      if (JSON.stringify(part).length < JSON.stringify(whole).length) smaller += 1;
    }
    expect(smaller).toBeGreaterThan(0);
  });
});

const branchesOf = (node: PolicyNode): readonly (PolicyNode | null)[] =>
  node.kind === 'hand-over' ? [] : node.kind === 'repair' ? [node.next] : node.next;
const nextOf = (node: PolicyNode, outcome: number | null): PolicyNode | null => branchesOf(node)[outcome ?? 0] ?? null;
const headsOf = (node: PolicyNode) => branchesOf(node).map((next) => next && [next.kind, next.kind === 'hand-over' ? null : next.action]);
