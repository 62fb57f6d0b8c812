import type { PolicyNode } from '../../../src/engine/plan/model.ts';

/** Nodes of policies written out by hand; the costs are what they say. */
export const handOver = (cost: number): PolicyNode => ({ kind: 'hand-over', cost });
export const repair = (action: number, cost: number, next: PolicyNode | null): PolicyNode => ({ kind: 'repair', action, cost, next });
export const check = (action: number, cost: number, next: (PolicyNode | null)[]): PolicyNode => ({ kind: 'check', action, cost, next });
