/** The part of an order that pages show: a twentieth of what had to be worked out for it. */
import type { PolicyNode, TroubleshootingModel } from '../engine/plan/index.ts';
import { afterCheck, afterFailedRepair, at, type Job, mass, startJob } from '../engine/plan/job.ts';
import { leastChance } from './flow.ts';
import { type Order, spineOf } from './order.ts';

/**
 * The order with its policy cut where neither the steps nor the flowchart look. What stays: the spine, every node that the
 * job reaches with at least the chance that the flowchart draws, and what each of their results leads to.
 */
export function shownOrder(model: TroubleshootingModel, order: Order): Order {
  const path = spineOf(order);
  const shown = (node: PolicyNode, job: Job, step: number | null): PolicyNode => {
    if (node.kind === 'hand-over') return node;
    const leadsOn = step !== null || mass(job) >= leastChance;
    if (node.kind === 'repair') {
      const next =
        leadsOn && node.next ? shown(node.next, afterFailedRepair(model, job, node.action), step === null ? null : step + 1) : null;
      return { ...node, next };
    }
    if (!leadsOn) return { ...node, next: [] };
    const after = afterCheck(model, job, node.action);
    const staysOn = step === null ? null : at(path, step).outcome;
    return {
      ...node,
      next: node.next.map(
        (next, outcome) => next && shown(next, at(after, outcome), outcome === staysOn && step !== null ? step + 1 : null),
      ),
    };
  };
  return { ...order, policy: shown(order.policy, startJob(model), 0) };
}
