import type { CheckAction, RepairAction, TroubleshootingModel } from '../../../src/engine/plan/model.ts';

/** A model with nothing in it but a dear way out: no change of engine state costs anything, nothing has been done. */
export const bareModel = {
  checks: [],
  setUpCosts: [],
  handOverCost: 1000,
  coolDownCost: 0,
  warmUpCost: 0,
  startsWarm: false,
  setUpsDone: [],
  checksDone: [],
  repairsTried: [],
} satisfies Partial<TroubleshootingModel>;

/** An action that needs nothing and waits for nothing. */
const bareAction = { setUps: [], after: [], engineState: 'any' } as const;

/** A check to be done once. */
export const bareCheck = (id: string, cost: number, likelihood: CheckAction['likelihood']): CheckAction => ({
  ...bareAction,
  id,
  cost,
  likelihood,
  repeats: false,
  maxPerformances: 1,
});

export const bareRepair = (id: string, cost: number, fixes: RepairAction['fixes']): RepairAction => ({
  ...bareAction,
  id,
  cost,
  fixes,
  spoils: [],
});

/** A repair that surely fixes one hypothesis and no other. */
export const soleRepair = (hypothesis: number, hypotheses: number, cost: number): RepairAction =>
  bareRepair(
    `repair-${hypothesis}`,
    cost,
    Array.from({ length: hypotheses }, (_, h) => (h === hypothesis ? 1 : 0)),
  );
