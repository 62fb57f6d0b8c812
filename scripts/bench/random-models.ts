import type { CheckAction, EngineState, RepairAction, TroubleshootingModel } from '../../src/engine/plan/model.ts';

/**
 * Random models in the likeness of a fault family: a few causes carry most of the chance, each cause has its repair
 * (some repairs serve two causes), a check bears on a few causes and says little about the rest, general checks split
 * the causes in groups, set-ups and precedence are shared. Costs in one currency; looks are cheap, parts are not.
 */
export function randomModel(causes: number, checks: number, random: () => number): TroubleshootingModel {
  const below = (count: number): number => Math.floor(random() * count);
  const chance = (p: number): boolean => random() < p;
  const between = (low: number, high: number): number => low * (high / low) ** random();
  const weights = Array.from({ length: causes }, () => between(0.05, 1));
  weights.push(0.03 * weights.reduce((sum, weight) => sum + weight, 0));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const prior = weights.map((weight) => weight / sum);
  const setUpCosts = Array.from({ length: Math.max(2, Math.round(checks / 8)) }, () => between(4, 40));
  const setUps = (p: number): number[] => (chance(p) ? [below(setUpCosts.length)] : []);
  const engineState = (): EngineState => (chance(0.7) ? 'any' : chance(0.5) ? 'cold' : 'warm');
  const checkActions = Array.from({ length: checks }, (_, index): CheckAction => {
    const general = chance(0.2);
    const bearing = prior.map((_, h) => h < causes && chance(general ? 0.45 : Math.min(0.5, 2.5 / causes)));
    if (!bearing.includes(true)) bearing[below(causes)] = true;
    const falseAlarm = between(0.01, 0.15);
    const outcomes = chance(0.8) ? 2 : 3;
    const likelihood = bearing.map((bears) => {
      const hit = bears ? 1 - between(0.02, 0.35) : falseAlarm;
      if (outcomes === 2) return [1 - hit, hit];
      const doubtful = bears ? 0.6 * (1 - hit) : 0.08;
      return [Math.max(1 - hit - doubtful, 0.005), doubtful, hit].map((x, _, row) => x / row.reduce((a, b) => a + b, 0));
    });
    return {
      id: `check-${index}`,
      cost: between(1, 30),
      setUps: setUps(0.4),
      after: index > 0 && chance(0.2) ? [below(index)] : [],
      engineState: engineState(),
      likelihood,
      repeats: false,
      maxPerformances: 1,
    };
  });
  const repairs = Array.from(
    { length: causes },
    (_, index): RepairAction => ({
      id: `repair-${index}`,
      cost: between(15, 400),
      setUps: setUps(0.4),
      after: [],
      engineState: 'any',
      fixes: prior.map((_, h) => (h === index ? 1 - between(0.01, 0.1) : h < causes && chance(0.5 / causes) ? 0.5 : 0)),
      spoils: chance(0.05) ? [below(checks)] : [],
    }),
  );
  return {
    prior,
    checks: checkActions,
    repairs,
    setUpCosts,
    handOverCost: between(300, 900),
    coolDownCost: 10,
    warmUpCost: 3,
    startsWarm: false,
    setUpsDone: [],
    checksDone: [],
    repairsTried: [],
  };
}
