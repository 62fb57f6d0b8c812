export { comparePolicies, comparePolicyWith, type Strategy, type StrategyResult } from './compare.ts';
export {
  type CostSummary,
  chanceSolvedBy,
  costDistribution,
  costQuantile,
  type Ending,
  evaluatePolicy,
  summarise,
} from './evaluate.ts';
export type {
  Budget,
  CheckAction,
  EngineState,
  Plan,
  PolicyNode,
  RepairAction,
  TroubleshootingModel,
} from './model.ts';
export { plan } from './plan.ts';
export { type SpineStep, spine } from './spine.ts';
