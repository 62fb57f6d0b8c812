/** Computed orders, kept by the hash of the problem, the engine that solved it and the work allowed. */
import { readFileSync } from 'node:fs';
import { leastChance } from '../compile/flow.ts';
import { computeOrder, type Order, type OrderBudget } from '../compile/order.ts';
import { shownOrder } from '../compile/shown-order.ts';
import { evaluatePolicy, type TroubleshootingModel } from '../engine/plan/index.ts';
import { certificateFor, certifiedPlan } from './certificates.ts';
import { keep, kept, keyOf, sourcesHash } from './store.ts';

/** Work for each distinct problem in a build. Counted in nodes, so that every machine finds the same order. */
export const buildBudget: OrderBudget = { plan: { nodes: 20 }, samples: 10, sample: { nodes: 5 } };

let engine: string | null = null;
const engineHash = (): string => {
  engine ??= keyOf(
    sourcesHash('src/engine'),
    ...['order.ts', 'shown-order.ts'].map((name) => readFileSync(`src/compile/${name}`, 'utf8')),
    JSON.stringify([buildBudget, leastChance]),
  );
  return engine;
};

/** Names of checks and repairs do not change what is cheapest; they are in the problem, so they are in the key. */
export const orderKey = (model: TroubleshootingModel): string =>
  keyOf(engineHash(), JSON.stringify(model), JSON.stringify(certificateFor(model) ?? null));

/** The kept order, if there is one and it is an order for this problem; else null. */
export function keptOrder(model: TroubleshootingModel, key = orderKey(model)): Order | null {
  const order = kept<Order>('orders', key);
  if (!order) return null;
  try {
    // The cost is worked out anew from the problem alone, so a kept order is never believed unseen.
    return Math.abs(evaluatePolicy(model, order.policy) - order.expectedCost) <= 1e-6 * order.expectedCost ? order : null;
  } catch {
    return null;
  }
}

/** Computes the order for a problem and keeps it, whole and as pages show it. */
export function solveOrder(model: TroubleshootingModel, key = orderKey(model)): Order {
  const order = computeOrder(model, buildBudget, certifiedPlan(model)?.plan ?? null);
  keep('orders', key, order);
  keepShown(model, key, order);
  return order;
}

/** Keeps what pages show of an order, if that is not kept yet. */
export function keepShown(model: TroubleshootingModel, key: string, order: Order): void {
  if (!kept('shown-orders', key)) keep('shown-orders', key, shownOrder(model, order));
}

const shown = new Map<string, Order>();

/**
 * The order for a problem as pages show it: a build has looked through all that is kept before it makes pages, so that
 * these are read as they are; without a build it is computed now. Codes with the same problem share one.
 */
export function shownOrderFor(model: TroubleshootingModel): Order {
  const key = orderKey(model);
  let order = shown.get(key) ?? kept<Order>('shown-orders', key);
  if (!order) order = shownOrder(model, keptOrder(model, key) ?? solveOrder(model, key));
  shown.set(key, order);
  return order;
}
