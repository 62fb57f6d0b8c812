import type { CheckAction, RepairAction, TroubleshootingModel } from '../../../src/engine/plan/model.ts';

/**
 * The optimum by plain recursion on the definition: at each point the cheapest of handing over, every open check (its
 * outcomes one by one) and every open repair. Written from the model alone; shares nothing with the planner. Results
 * are remembered by a readable key of everything that matters, so that a small model takes milliseconds.
 */
export function bruteForce(model: TroubleshootingModel): number {
  const memory = new Map<string, number>();

  interface Point {
    weights: number[];
    times: number[];
    once: boolean[];
    tried: boolean[];
    paid: boolean[];
    warm: boolean;
  }

  function pay(point: Point, action: CheckAction | RepairAction): [number, Point] {
    let cost = action.cost;
    const paid = [...point.paid];
    for (const setUp of action.setUps) {
      if (!paid[setUp]) cost += model.setUpCosts[setUp] ?? 0;
      paid[setUp] = true;
    }
    let { warm } = point;
    if (action.engineState === 'cold' && warm) {
      cost += model.coolDownCost;
      warm = false;
    } else if (action.engineState === 'warm' && !warm) {
      cost += model.warmUpCost;
      warm = true;
    }
    return [cost, { ...point, times: [...point.times], once: [...point.once], tried: [...point.tried], paid, warm }];
  }

  function best(point: Point): number {
    const total = point.weights.reduce((a, b) => a + b, 0);
    if (total <= 0) return 0;
    const shares = point.weights.map((weight) => (weight / total).toFixed(12));
    const key = [shares, point.times, point.once, point.tried, point.paid, point.warm].join('|');
    const known = memory.get(key);
    if (known !== undefined) return known * total;
    let least = total * model.handOverCost;
    model.checks.forEach((check, c) => {
      const limit = check.repeats ? check.maxPerformances : 1;
      if ((point.times[c] ?? 0) >= limit || check.after.some((before) => !point.once[before])) return;
      const [cost, next] = pay(point, check);
      next.times[c] = (next.times[c] ?? 0) + 1;
      next.once[c] = true;
      let sum = total * cost;
      for (let o = 0; o < (check.likelihood[0]?.length ?? 0); o++) {
        sum += best({ ...next, weights: point.weights.map((weight, h) => weight * (check.likelihood[h]?.[o] ?? 0)) });
      }
      least = Math.min(least, sum);
    });
    model.repairs.forEach((repair, r) => {
      if (point.tried[r] || repair.after.some((before) => !point.once[before])) return;
      const [cost, next] = pay(point, repair);
      next.tried[r] = true;
      for (const spoiled of repair.spoils) next.times[spoiled] = 0;
      const left = point.weights.map((weight, h) => weight * (1 - (repair.fixes[h] ?? 0)));
      least = Math.min(least, total * cost + best({ ...next, weights: left }));
    });
    memory.set(key, least / total);
    return least;
  }

  const times = model.checks.map((_, c) => model.checksDone.filter((done) => done === c).length);
  return best({
    weights: [...model.prior],
    times,
    once: times.map((count) => count > 0),
    tried: model.repairs.map((_, r) => model.repairsTried.includes(r)),
    paid: model.setUpCosts.map((_, s) => model.setUpsDone.includes(s)),
    warm: model.startsWarm,
  });
}
