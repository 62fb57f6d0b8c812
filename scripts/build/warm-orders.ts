/** Computes all orders that are not kept yet, on as many threads as there are processors. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { TroubleshootingModel } from '../../src/engine/plan/index.ts';
import { keptOrder, orderKey } from '../../src/kept/orders.ts';

/** Returns how many distinct problems there are and how many had to be solved. The largest go first, so that none is left alone at the end. */
export async function warmOrders(models: readonly TroubleshootingModel[]): Promise<{ readonly distinct: number; readonly solved: number }> {
  const distinct = new Map(models.map((model) => [orderKey(model), model]));
  const size = (model: TroubleshootingModel) => model.checks.length * model.prior.length;
  const missing = [...distinct]
    .filter(([key, model]) => !keptOrder(model, key))
    .map(([, model]) => model)
    .sort((a, b) => size(b) - size(a));
  const threads = Math.min(availableParallelism(), missing.length);
  let next = 0;
  await Promise.all(
    Array.from(
      { length: threads },
      () =>
        new Promise<void>((resolve, reject) => {
          const worker = new Worker(new URL('./order-worker.ts', import.meta.url));
          const feed = () => {
            const model = missing[next++];
            if (model) worker.postMessage(model);
            else void worker.terminate().then(() => resolve());
          };
          worker.on('message', feed);
          worker.on('error', reject);
          feed();
        }),
    ),
  );
  return { distinct: distinct.size, solved: missing.length };
}
