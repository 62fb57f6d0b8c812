import { type Instance, markDone, stepCost } from './instance.ts';

/**
 * The omniscient bound: someone who knows the hypothesis pays, for hypothesis h, at least knownCost[h]; so every policy
 * costs at least the belief-weighted sum. With h known, repairs that can fix it are tried by rising c/f and only those
 * with c/f below the cost of handing over. Set-ups and forced checks are charged to whichever repair comes first, the
 * others are taken bare, and changes of engine state are left out: each only lowers the bound.
 */
export function knownCosts(instance: Instance, status: Uint8Array): Float64Array {
  const known = new Float64Array(instance.hypotheses);
  for (let h = 0; h < instance.hypotheses; h++) known[h] = knownCost(instance, status, h);
  return known;
}

function knownCost(instance: Instance, status: Uint8Array, hypothesis: number): number {
  const options: { repair: number; chance: number; bare: number }[] = [];
  for (let repair = 0; repair < instance.repairs; repair++) {
    if (status[instance.triedAt + repair]) continue;
    const chance = fixChanceOf(instance, repair, hypothesis);
    if (chance > 0) options.push({ repair, chance, bare: instance.cost[instance.checks + repair] as number });
  }
  options.sort((a, b) => a.bare / a.chance - b.bare / b.chance);
  let best = instance.handOverCost;
  for (const first of options) {
    let rest = instance.handOverCost;
    for (let i = options.length - 1; i >= 0; i--) {
      const option = options[i] as (typeof options)[number];
      if (option !== first) rest = Math.min(rest, option.bare + (1 - option.chance) * rest);
    }
    best = Math.min(best, fullCost(instance, status, first.repair) + (1 - first.chance) * rest);
  }
  return best;
}

/** A repair with its unpaid set-ups and every forced check, without changes of engine state. */
function fullCost(instance: Instance, status: Uint8Array, repair: number): number {
  const steps: number[] = [];
  const collect = (action: number): void => {
    for (const check of instance.afterOf[action] as Int32Array) {
      if (!status[instance.everAt + check] && !steps.includes(check)) collect(check);
    }
    if (!steps.includes(action)) steps.push(action);
  };
  collect(instance.checks + repair);
  const scratch = status.slice();
  let cost = 0;
  for (const step of steps) {
    const bare: Instance = { ...instance, coolDownCost: 0, warmUpCost: 0 };
    cost += stepCost(bare, scratch, step);
    markDone(bare, scratch, step);
  }
  return cost;
}

function fixChanceOf(instance: Instance, repair: number, hypothesis: number): number {
  const end = instance.fixAt[repair + 1] as number;
  for (let i = instance.fixAt[repair] as number; i < end; i++) {
    if (instance.fixHypothesis[i] === hypothesis) return instance.fixChance[i] as number;
  }
  return 0;
}
