/** How long without the code is long enough: the engine's return clock with its checks beside it. */
import { chanceFixed, chanceOfSilence, cleanNeeded, meanRate, rateAfter, upperBoundOfRate } from '../../engine/proof/index.ts';

export interface Silence {
  /** P(fixed | clean so far). */
  readonly fixed: number;
  /** P(that much silence | the fault is still there). */
  readonly silence: number;
  /** Mean number of returns in a unit of exposure, from the history alone. */
  readonly rate: number;
  /** Clean exposure in all until fixed is as likely as each target; Infinity when never. */
  readonly needed: readonly { readonly target: number; readonly clean: number }[];
  /** Rule of three: with 95 % confidence the fault comes back less often than once in this many units; null with nothing clean yet. */
  readonly onceInMoreThan: number | null;
}

export const targets = [0.9, 0.95, 0.99] as const;

/**
 * @param returns times that the code came back before the repair, the first time not counted
 * @param exposure over how many units (km, miles, hours, starts) that was; > 0
 * @param right belief that the repair was right, 0 to 1
 * @param clean units without the code since the repair
 * Null when the figures cannot be.
 */
export function silenceOf(returns: number, exposure: number, right: number, clean: number): Silence | null {
  if (!(returns >= 0) || !(exposure > 0) || !(clean >= 0) || !(right >= 0 && right <= 1)) return null;
  const rate = rateAfter({ returns, exposure });
  return {
    fixed: chanceFixed(right, rate, clean),
    silence: chanceOfSilence(rate, clean),
    rate: meanRate(rate),
    needed: targets.map((target) => ({ target, clean: cleanNeeded(right, rate, target) })),
    onceInMoreThan: clean > 0 ? 1 / upperBoundOfRate(clean) : null,
  };
}
