/** The longer look at a job. In a file of its own, so that the worker begins without the code that improves plans. */
import type { CostedPolicy } from '../../engine/plan/greedy.ts';
import type { TroubleshootingModel } from '../../engine/plan/index.ts';
import { compileInstance, startStatus } from '../../engine/plan/instance.ts';
import { quickPolicy, THOROUGH } from '../../engine/plan/quick-policy.ts';

/** The quick policy improved state by state, for a second or two. */
export function carefulPlan(model: TroubleshootingModel): CostedPolicy {
  const instance = compileInstance(model);
  return quickPolicy(instance, Float64Array.from(model.prior), startStatus(instance), THOROUGH);
}
