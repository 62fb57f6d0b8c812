/** Computes and keeps the orders of the problems that it is sent. */
import { parentPort } from 'node:worker_threads';
import type { TroubleshootingModel } from '../../src/engine/plan/index.ts';
import { orderFor } from '../../src/kept/orders.ts';

parentPort!.on('message', (model: TroubleshootingModel) => {
  orderFor(model);
  parentPort!.postMessage('kept');
});
