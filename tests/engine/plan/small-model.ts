import type { CheckAction, EngineState, RepairAction, TroubleshootingModel } from '../../../src/engine/plan/model.ts';

/**
 * A random small model with every feature that the model knows: set-ups, precedence of checks and repairs, engine
 * states, noisy and perfect checks, two or three outcomes, repeats, repairs that may not hold, that fix several
 * hypotheses, that spoil readings, and hypotheses that only handing over removes. `more` adds to the number of hypotheses, checks
 * and repairs.
 */
export function smallModel(random: () => number, more = 0): TroubleshootingModel {
  const below = (count: number): number => Math.floor(random() * count);
  const chance = (p: number): boolean => random() < p;
  const hypotheses = 2 + below(3) + more;
  const checkCount = below(4) + more;
  const repairCount = 1 + below(3) + more;
  const setUpCosts = Array.from({ length: below(3) }, () => below(20));
  const some = (count: number, p: number): number[] => Array.from({ length: count }, (_, i) => i).filter(() => chance(p));
  const engineState = (): EngineState => (chance(0.6) ? 'any' : chance(0.5) ? 'cold' : 'warm');
  const likelihoodRow = (outcomes: number, perfect: boolean): number[] => {
    if (perfect) {
      const shown = below(outcomes);
      return Array.from({ length: outcomes }, (_, o) => (o === shown ? 1 : 0));
    }
    const weights = Array.from({ length: outcomes }, () => random() ** 3 + 0.01);
    const sum = weights.reduce((a, b) => a + b, 0);
    return weights.map((weight) => weight / sum);
  };
  const checks = Array.from({ length: checkCount }, (_, index): CheckAction => {
    const outcomes = chance(0.75) ? 2 : 3;
    const perfect = chance(0.3);
    const repeats = chance(0.15);
    return {
      id: `check-${index}`,
      cost: chance(0.1) ? 0 : random() * 15,
      setUps: some(setUpCosts.length, 0.4),
      after: some(index, 0.25),
      engineState: engineState(),
      likelihood: Array.from({ length: hypotheses }, () => likelihoodRow(outcomes, perfect)),
      repeats,
      maxPerformances: repeats ? 2 : 1,
    };
  });
  const repairs = Array.from({ length: repairCount }, (_, index): RepairAction => {
    const fixes = Array.from({ length: hypotheses }, (_, h) => {
      if (h === index) return chance(0.5) ? 1 : 0.6 + 0.4 * random();
      return chance(0.2) ? random() : 0;
    });
    return {
      id: `repair-${index}`,
      cost: 5 + random() * 60,
      setUps: some(setUpCosts.length, 0.3),
      after: some(checkCount, 0.15),
      engineState: engineState(),
      fixes,
      spoils: some(checkCount, 0.15),
    };
  });
  const weights = Array.from({ length: hypotheses }, () => random() ** 2 + 0.02);
  const sum = weights.reduce((a, b) => a + b, 0);
  return {
    prior: weights.map((weight) => weight / sum),
    checks,
    repairs,
    setUpCosts,
    handOverCost: 30 + random() * 150,
    coolDownCost: chance(0.5) ? 0 : random() * 10,
    warmUpCost: chance(0.5) ? 0 : random() * 10,
    startsWarm: chance(0.5),
    setUpsDone: some(setUpCosts.length, 0.1),
    checksDone: [],
    repairsTried: chance(0.1) ? [0] : [],
  };
}
