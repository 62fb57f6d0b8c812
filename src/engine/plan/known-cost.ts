import type { Instance } from './instance.ts';

/**
 * The omniscient bound: someone who knows hypothesis h pays at least knownCost(h), so every policy costs at least the
 * belief-weighted sum. With h known, repairs that can fix it are tried by rising c/f and only those with c/f below the
 * cost of handing over. Set-ups and forced checks are charged to whichever repair comes first, the others are taken
 * bare, and changes of engine state are left out: each only lowers the bound.
 */
export class KnownCosts {
  /** Repairs that can fix each hypothesis, by rising c/f. */
  readonly fixers: readonly (readonly Fixer[])[];
  private readonly instance: Instance;

  constructor(instance: Instance) {
    this.instance = instance;
    const fixers: Fixer[][] = Array.from({ length: instance.hypotheses }, () => []);
    for (let repair = 0; repair < instance.repairs; repair++) {
      const action = instance.checks + repair;
      const checks = forcedChecks(instance, action);
      const setUps = new Set([action, ...checks].flatMap((step) => [...(instance.setUpsOf[step] as Int32Array)]));
      const bare = instance.cost[action] as number;
      const end = instance.fixAt[repair + 1] as number;
      for (let i = instance.fixAt[repair] as number; i < end; i++) {
        const chance = instance.fixChance[i] as number;
        (fixers[instance.fixHypothesis[i] as number] as Fixer[]).push({ repair, chance, bare, checks, setUps: [...setUps] });
      }
    }
    this.fixers = fixers.map((list) => list.sort((a, b) => a.bare / a.chance - b.bare / b.chance));
  }

  /** Least expected cost with h known. */
  of(hypothesis: number, status: Uint8Array): number {
    const { instance } = this;
    const list = this.fixers[hypothesis] as readonly Fixer[];
    let best = instance.handOverCost;
    for (let f = 0; f < list.length; f++) {
      const first = list[f] as Fixer;
      if (status[instance.triedAt + first.repair]) continue;
      let cost = this.ending(hypothesis, first.repair, status);
      for (const check of first.checks) if (!status[instance.everAt + check]) cost += instance.cost[check] as number;
      for (const setUp of first.setUps) if (!status[instance.paidAt + setUp]) cost += instance.setUpCost[setUp] as number;
      if (cost < best) best = cost;
    }
    return best;
  }

  /** The omniscient bound at a belief (any scale). */
  expected(belief: ArrayLike<number>, status: Uint8Array): number {
    let sum = 0;
    for (let h = 0; h < belief.length; h++) sum += (belief[h] as number) * this.of(h, status);
    return sum;
  }

  /** Least expected cost with h known when `repair` is tried first, with all set-ups paid and all forced checks done. */
  ending(hypothesis: number, repair: number, status: Uint8Array): number {
    const { instance } = this;
    const list = this.fixers[hypothesis] as readonly Fixer[];
    let first: Fixer | undefined;
    let rest = instance.handOverCost;
    for (let i = list.length - 1; i >= 0; i--) {
      const option = list[i] as Fixer;
      if (option.repair === repair) first = option;
      else if (!status[instance.triedAt + option.repair]) rest = Math.min(rest, option.bare + (1 - option.chance) * rest);
    }
    return first ? first.bare + (1 - first.chance) * rest : instance.handOverCost;
  }

  fixes(repair: number, hypothesis: number): boolean {
    return (this.fixers[hypothesis] as readonly Fixer[]).some((fixer) => fixer.repair === repair);
  }
}

/** A repair as one hypothesis sees it, with all the checks that precedence forces before it and all set-ups of these. */
export interface Fixer {
  readonly repair: number;
  readonly chance: number;
  readonly bare: number;
  readonly checks: readonly number[];
  readonly setUps: readonly number[];
}

/** Every check that must come before an action, directly or not, each after its own. */
export function forcedChecks(instance: Instance, action: number): number[] {
  const found: number[] = [];
  const collect = (step: number): void => {
    for (const check of instance.afterOf[step] as Int32Array) {
      if (found.includes(check)) continue;
      collect(check);
      found.push(check);
    }
  };
  collect(action);
  return found;
}
