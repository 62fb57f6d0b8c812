/** Finds the orders of the problems that it is sent, keeps them, and answers with the text of each order's flowchart. */
import { parentPort, workerData } from 'node:worker_threads';
import { type FlowProblem, flowOf } from '../../src/compile/flow.ts';
import { flowMermaid } from '../../src/compile/flow-mermaid.ts';
import type { Knowledge } from '../../src/engine/knowledge.ts';
import { keepShown, keptOrder, solveOrder } from '../../src/kept/orders.ts';

export interface Task extends FlowProblem {
  readonly key: string;
}

export interface Done {
  /** Nothing was kept for the problem, so it was solved now. */
  readonly solved: boolean;
  readonly flowchart: string;
}

const knowledge = workerData as Knowledge;

parentPort?.on('message', ({ key, ...problem }: Task) => {
  const known = keptOrder(problem.model, key);
  if (known) keepShown(problem.model, key, known);
  const { policy } = known ?? solveOrder(problem.model, key);
  const done: Done = { solved: !known, flowchart: flowMermaid(flowOf(problem, policy, knowledge)) };
  parentPort?.postMessage(done);
});
