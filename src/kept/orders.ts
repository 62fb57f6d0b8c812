/** Computed orders, kept by the hash of the problem, the engine that solved it and the work allowed. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { computeOrder, type Order, type OrderBudget } from '../compile/order.ts';
import { evaluatePolicy, modelFingerprint, type TroubleshootingModel } from '../engine/plan/index.ts';
import { certificateFolder, certifiedPlan, readCertificates } from './certificates.ts';
import { keep, kept, keyOf, sourcesHash } from './store.ts';

/** Work for each distinct problem in a build. Counted in nodes, so that every machine finds the same order. */
export const buildBudget: OrderBudget = { plan: { nodes: 20 }, samples: 10, sample: { nodes: 5 } };

let engine: string | null = null;
const engineHash = (): string => {
  engine ??= keyOf(sourcesHash('src/engine'), readFileSync('src/compile/order.ts', 'utf8'), JSON.stringify(buildBudget));
  return engine;
};

let hashes: ReadonlyMap<string, string> | null = null;

/** Hash of each certificate, by the model that it names. Whether it holds is worked out only where an order is computed. */
function certificateHashes(): ReadonlyMap<string, string> {
  hashes ??= new Map(
    (existsSync(certificateFolder) ? readdirSync(certificateFolder) : [])
      .filter((name) => name.endsWith('.json'))
      .sort()
      .flatMap((name) => readCertificates(`${certificateFolder}/${name}`))
      .map((certificate) => [certificate.model, keyOf(JSON.stringify(certificate))]),
  );
  return hashes;
}

/** Names of checks and repairs do not change what is cheapest; they are in the problem, so they are in the key. */
export const orderKey = (model: TroubleshootingModel): string =>
  keyOf(engineHash(), JSON.stringify(model), certificateHashes().get(modelFingerprint(model)) ?? '');

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

const orders = new Map<string, Order>();

/** The order for a problem: kept from an earlier build, or computed now and kept. Codes with the same problem share one. */
export function orderFor(model: TroubleshootingModel, key = orderKey(model)): Order {
  let order = orders.get(key) ?? keptOrder(model, key);
  if (!order) {
    order = computeOrder(model, buildBudget, certifiedPlan(model)?.plan ?? null);
    keep('orders', key, order);
  }
  orders.set(key, order);
  return order;
}
