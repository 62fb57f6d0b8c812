/** What each piece of evidence moved: the belief with it beside the belief without it. */
import type { Case } from '../case.ts';
import type { Knowledge } from '../knowledge.ts';
import { type Belief, belief } from './belief.ts';
import type { Evidence } from './evidence.ts';
import type { CauseId } from './prior.ts';

export interface Movement {
  readonly kind: Evidence['kind'];
  readonly id: string;
  readonly title: string;
  /** Causes that it moved most, by how far, largest first. `factor` is odds with it over odds without it. */
  readonly moved: readonly { readonly cause: CauseId; readonly without: number; readonly with: number; readonly factor: number }[];
}

/** One movement per evidence item of the case (results of checks are told by their own step). Changes under half a percent point are left out. */
export function movements(situation: Case, knowledge: Knowledge, now: Belief = belief(situation, knowledge)): readonly Movement[] {
  return now.evidence.map((item) => {
    // Taking one factor out of the product is dividing by it: no second pass over the case.
    const without = now.causes.map(({ id, probability }) => ({
      id,
      weight: probability / Math.max(1e-12, item.likelihood(id === null ? null : knowledge.causes[id]!)),
    }));
    const sum = without.reduce((total, { weight }) => total + weight, 0);
    const moved = now.causes.flatMap(({ id, probability }, index) => {
      const before = without[index]!.weight / sum;
      if (Math.abs(probability - before) < 0.005) return [];
      return [
        {
          cause: id,
          without: before,
          with: probability,
          factor: probability / (1 - probability + 1e-12) / (before / (1 - before + 1e-12)),
        },
      ];
    });
    return {
      kind: item.kind,
      id: item.id,
      title: item.title,
      moved: moved.sort((a, b) => Math.abs(b.with - b.without) - Math.abs(a.with - a.without)),
    };
  });
}
