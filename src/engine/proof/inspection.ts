/**
 * What an inspection of the on-board diagnostics does with a car. Federal minimum of the United States; a state may be
 * stricter. Read in 40 CFR 85.2207 and 85.2222.
 */

/** Model year in which the connector and the monitors became obligatory. */
export const firstInspectedModelYear = 1996;

/** Monitors that may be unset: 40 CFR 85.2222(c)(2). Null for cars without such monitors. */
export function unsetMonitorsAllowed(modelYear: number): number | null {
  if (modelYear < firstInspectedModelYear) return null;
  return modelYear <= 2000 ? 2 : 1;
}

export interface InspectionState {
  readonly modelYear: number;
  /** The control module commands the lamp on (service 01 PID 01 byte A bit 7). */
  readonly lampCommandedOn: boolean;
  /** The lamp lights at key-on, engine off; and while it is commanded on. */
  readonly lampWorks: boolean;
  readonly unsetMonitors: number;
  /** The car comes back after a visit at which it was turned away as not ready. */
  readonly secondVisit?: boolean;
}

export interface InspectionFinding {
  readonly verdict: 'pass' | 'fail' | 'come-again' | 'not-inspected';
  readonly reason: string;
  readonly source: string;
}

/** The first finding that decides. */
export function inspect(state: InspectionState): InspectionFinding {
  const allowed = unsetMonitorsAllowed(state.modelYear);
  if (allowed === null)
    return { verdict: 'not-inspected', reason: 'Cars before model year 1996 have no such monitors.', source: '40 CFR 85.2222' };
  if (!state.lampWorks)
    return {
      verdict: 'fail',
      reason: 'The lamp is dark at key-on or although it is commanded on.',
      source: '40 CFR 85.2222(d)(3) and (4)',
    };
  if (state.lampCommandedOn)
    return { verdict: 'fail', reason: 'The control module commands the lamp on.', source: '40 CFR 85.2207(c), 85.2222(d)(1)' };
  if (state.unsetMonitors > allowed)
    return state.secondVisit
      ? { verdict: 'fail', reason: 'Not ready again on the second visit.', source: '40 CFR 85.2222(c)(1)' }
      : {
          verdict: 'come-again',
          reason: `${state.unsetMonitors} monitors are unset; model year ${state.modelYear} may have ${allowed}.`,
          source: '40 CFR 85.2222(c)(2)',
        };
  return {
    verdict: 'pass',
    reason: 'The lamp is not commanded on and enough monitors are set. Codes stored without the lamp do not fail the car.',
    source: '40 CFR 85.2222(c)(2) and (d)(2)',
  };
}
