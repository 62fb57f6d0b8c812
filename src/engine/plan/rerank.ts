import { GreedyPlanner } from './greedy.ts';
import { compileInstance, fixedWeight, isOpen, markDone, removeFixed, startStatus, stepCost } from './instance.ts';
import type { PolicyNode, TroubleshootingModel } from './model.ts';

/** One thing that could be done next. */
export interface RankedAction {
  readonly kind: PolicyNode['kind'];
  /** Index of the check or repair; null for handing over. */
  readonly action: number | null;
  /** What it costs to do now. */
  readonly cost: number;
  /** Expected cost of the whole job if this comes next and repairs in P/C order follow: an upper estimate. */
  readonly estimate: number;
  /** `estimate` above the best of all: what deviating from the first place costs, as far as one step tells. */
  readonly deviation: number;
}

/**
 * An immediate answer, best first: every open action by one-step value of information against the repair sequence. For
 * the browser while the full plan is being refined. Ties go to repairs, then to the lower index.
 */
export function rerank(model: TroubleshootingModel): RankedAction[] {
  const instance = compileInstance(model);
  const status = startStatus(instance);
  const belief = Float64Array.from(model.prior);
  const greedy = new GreedyPlanner(instance, 0, 0);
  const found: Omit<RankedAction, 'deviation'>[] = [];
  const left = belief.slice();
  const next = status.slice();
  for (let repair = 0; repair < instance.repairs; repair++) {
    const action = instance.checks + repair;
    if (!isOpen(instance, status, action) || fixedWeight(instance, belief, repair) <= 1e-12) continue;
    const cost = stepCost(instance, status, action);
    left.set(belief);
    next.set(status);
    markDone(instance, next, action);
    const weight = 1 - removeFixed(instance, left, repair);
    const estimate = cost + (weight > 1e-12 ? greedy.sequencer.cost(left, next, weight) : 0);
    found.push({ kind: 'repair', action: repair, cost, estimate });
  }
  for (let check = 0; check < instance.checks; check++) {
    if (!isOpen(instance, status, check)) continue;
    const estimate = greedy.oneStep(belief, status, check, Number.POSITIVE_INFINITY);
    found.push({ kind: 'check', action: check, cost: stepCost(instance, status, check), estimate });
  }
  found.push({ kind: 'hand-over', action: null, cost: instance.handOverCost, estimate: instance.handOverCost });
  found.sort((a, b) => a.estimate - b.estimate);
  const best = (found[0] as Omit<RankedAction, 'deviation'>).estimate;
  return found.map((ranked) => ({ ...ranked, deviation: ranked.estimate - best }));
}
