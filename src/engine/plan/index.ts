export { type Certificate, certify, modelFingerprint, planFrom } from './certificate.ts';
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
export { type Exchange, explain, type StepReason } from './explain.ts';
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
export { type RankedAction, rerank } from './rerank.ts';
export { type Robustness, type RobustnessOptions, robustness } from './robustness.ts';
export { type SpineStep, spine } from './spine.ts';
