/** The orders of all codes, on as many threads as there are processors. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { FlowProblem } from '../../src/compile/flow.ts';
import type { Knowledge } from '../../src/engine/knowledge.ts';
import { orderKey } from '../../src/kept/orders.ts';
import type { Done, Task } from './order-worker.ts';

export interface Orders {
  /** Different problems among those of the codes. */
  readonly distinct: number;
  /** Of these, the ones that were not kept from an earlier build. */
  readonly solved: number;
  /** Texts of their flowcharts, each once, sorted. */
  readonly flowcharts: readonly string[];
}

/** Sees to it that an order is kept for every problem. The largest go first, so that none is left alone at the end. */
export async function findOrders(problems: readonly FlowProblem[], knowledge: Knowledge): Promise<Orders> {
  const distinct = new Map(problems.map(({ model, checkIds, repairIds }) => [orderKey(model), { model, checkIds, repairIds }]));
  const size = ({ model }: FlowProblem) => model.checks.length * model.prior.length;
  const tasks = [...distinct].map(([key, problem]): Task => ({ key, ...problem })).sort((a, b) => size(b) - size(a));
  const done: Done[] = [];
  let next = 0;
  const thread = () =>
    new Promise<void>((resolve, reject) => {
      const worker = new Worker(new URL('./order-worker.ts', import.meta.url), { workerData: knowledge });
      const feed = () => {
        const task = tasks[next++];
        if (task) worker.postMessage(task);
        else void worker.terminate().then(() => resolve());
      };
      worker.on('message', (one: Done) => {
        done.push(one);
        feed();
      });
      worker.on('error', reject);
      feed();
    });
  await Promise.all(Array.from({ length: Math.min(availableParallelism(), tasks.length) }, thread));
  return {
    distinct: tasks.length,
    solved: done.filter(({ solved }) => solved).length,
    flowcharts: [...new Set(done.map(({ flowchart }) => flowchart))].sort(),
  };
}
