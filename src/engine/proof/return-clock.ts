/**
 * How long is long enough without the code?
 *
 * Before the repair the code came back k times in an exposure t (kilometres, hours or starts). While the fault is there its
 * returns are a Poisson process of unknown rate r; with Jeffreys' prior Gamma(1/2, 0) the rate is Gamma(k + 1/2, t) after
 * that history (shape, rate). If the repair was right, the code does not return. So for n clean since the repair, from the
 * belief q that it was right:
 *
 *   P(n clean | still there) = (t / (t + n)) ^ (k + 1/2)          (negative binomial at zero)
 *   P(fixed | n clean)       = q / (q + (1 - q) P(n clean | still there))
 *
 * Conjugate pair and prior: Gelman et al., Bayesian Data Analysis, 3rd ed., section 2.6.
 */

/** Gamma distribution of a rate: returns per unit of exposure. */
export interface RateBelief {
  readonly shape: number;
  /** In units of exposure. */
  readonly rate: number;
}

/** Jeffreys' prior for the rate of a Poisson process. */
export const jeffreysPrior: RateBelief = { shape: 0.5, rate: 0 };

/** How often the code came back before the repair. */
export interface ReturnHistory {
  /** Times that the code came back after it was cleared or the lamp went out; the first time it ever came does not count. */
  readonly returns: number;
  /** Over how much: kilometres, hours or starts, in the unit in which the clean stretch will be counted. > 0. */
  readonly exposure: number;
}

/**
 * Posterior of the rate of returns.
 * @throws RangeError when returns are negative or the exposure leaves the rate without a proper distribution.
 */
export function rateAfter(history: ReturnHistory, prior: RateBelief = jeffreysPrior): RateBelief {
  const { returns, exposure } = history;
  if (!(returns >= 0) || !(exposure >= 0) || !Number.isFinite(returns + exposure))
    throw new RangeError(`history must be finite and not negative: ${returns} returns in ${exposure}`);
  const rate = prior.rate + exposure;
  if (!(rate > 0)) throw new RangeError('the exposure must be above zero');
  return { shape: prior.shape + returns, rate };
}

export const meanRate = ({ shape, rate }: RateBelief): number => shape / rate;

/** P(no return in the next `clean` | the fault is still there). */
export function chanceOfSilence(rate: RateBelief, clean: number): number {
  // In logarithms, so that small shares and long stretches keep their digits.
  return Math.exp(-rate.shape * Math.log1p(clean / rate.rate));
}

/** P(fixed | `clean` without a return), from the belief `right` that the repair was right. */
export function chanceFixed(right: number, rate: RateBelief, clean: number): number {
  const missed = (1 - right) * chanceOfSilence(rate, clean);
  return right + missed > 0 ? right / (right + missed) : 0;
}

/** Clean exposure at which `chanceFixed` reaches `target`; 0 when it is there already, Infinity when it never gets there. */
export function cleanNeeded(right: number, rate: RateBelief, target: number): number {
  if (right >= target) return 0;
  if (right <= 0 || target >= 1) return Number.POSITIVE_INFINITY;
  const silence = (right * (1 - target)) / ((1 - right) * target);
  return rate.rate * Math.expm1(-Math.log(silence) / rate.shape);
}

/**
 * With no event in `trials`, the rate above which that would have had less than a chance of 1 - `confidence`. At 95 % it is
 * close to 3 / trials, the rule of three (Hanley & Lippman-Hand 1983, JAMA 249:1743-1745).
 */
export const upperBoundOfRate = (trials: number, confidence = 0.95): number => -Math.log(1 - confidence) / trials;

/** The same for a chance per trial (one start, one trip): exact binomial bound, the source of the rule. */
export const upperBoundOfChance = (trials: number, confidence = 0.95): number => 1 - (1 - confidence) ** (1 / trials);
