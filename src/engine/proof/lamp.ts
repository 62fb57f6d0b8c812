/**
 * When the lamp and its codes come and go, trip by trip. The federal text for light duty (40 CFR 86.1806-05) gives lamp-off
 * and erasure; storing and permanent codes are spelled out for heavy duty (40 CFR 86.010-18) and hold in principle here too.
 */

/** Sequential trips in which the monitor ran and passed before the lamp goes out: 86.1806-05(d)(1). */
export const passingTripsToLampOff = 3;
/** Warm-up cycles without the fault before the code is erased, lamp off: 86.1806-05(e)(3). */
export const warmUpsToErase = 40;
/** Similar conditions, for misfire and fuel-system faults: 86.1806-05(d)(1). */
export const similarSpeedRpm = 375;
export const similarLoadPercent = 20;
/** Warm-up cycle: rise of 40 degF to at least 160 degF. From memory of 13 CCR 1968.2, seen in a maker's document. */
export const warmUpRiseKelvin = 22.2;
export const warmUpCelsius = 71.1;

export interface Conditions {
  readonly engineSpeedRpm: number;
  readonly loadPercent: number;
  readonly warm: boolean;
}

/** Whether a later moment counts as similar to the frozen one. */
export const similarConditions = (frozen: Conditions, now: Conditions): boolean =>
  Math.abs(frozen.engineSpeedRpm - now.engineSpeedRpm) <= similarSpeedRpm &&
  Math.abs(frozen.loadPercent - now.loadPercent) <= similarLoadPercent &&
  frozen.warm === now.warm;

export const isWarmUpCycle = (startCelsius: number, highestCelsius: number): boolean =>
  highestCelsius >= warmUpCelsius && highestCelsius - startCelsius >= warmUpRiseKelvin;

/** One driving cycle as the monitor of one fault saw it. */
export interface Trip {
  /** The monitor did not run, ran and passed, or found the fault. Misfire and fuel: passing means in similar conditions. */
  readonly monitor: 'not-run' | 'passed' | 'failed';
  readonly warmUp: boolean;
}

export interface LampState {
  readonly lamp: boolean;
  readonly pending: boolean;
  readonly stored: boolean;
  readonly permanent: boolean;
  /** Passing trips in sequence since the last failure; trips in which the monitor did not run neither count nor break it. */
  readonly passes: number;
  readonly warmUpsSinceLampOff: number;
  /** Codes were cleared and the monitor has not yet passed since. */
  readonly cleared: boolean;
}

export const lampDark: LampState = {
  lamp: false,
  pending: false,
  stored: false,
  permanent: false,
  passes: 0,
  warmUpsSinceLampOff: 0,
  cleared: false,
};

/** The state after one more trip, for a fault that needs two trips to be confirmed. */
export function afterTrip(state: LampState, trip: Trip): LampState {
  if (trip.monitor === 'failed') {
    const confirmed = state.pending || state.stored;
    return {
      lamp: state.lamp || confirmed,
      pending: true,
      stored: state.stored || confirmed,
      permanent: state.permanent || confirmed,
      passes: 0,
      warmUpsSinceLampOff: 0,
      cleared: state.cleared,
    };
  }
  if (trip.monitor === 'passed') {
    const passes = state.passes + 1;
    const lampGoesOff = state.lamp && passes >= passingTripsToLampOff;
    return countWarmUp(
      {
        ...state,
        passes,
        pending: false,
        lamp: state.lamp && !lampGoesOff,
        // After a clear one trip with a pass is enough for the permanent code: 86.010-18(b)(3)(iii).
        permanent: state.permanent && !lampGoesOff && !state.cleared,
        cleared: false,
      },
      trip,
      lampGoesOff,
    );
  }
  return countWarmUp(state, trip, false);
}

function countWarmUp(state: LampState, trip: Trip, justOff: boolean): LampState {
  if (!state.stored || state.lamp || justOff || !trip.warmUp) return state;
  const warmUpsSinceLampOff = state.warmUpsSinceLampOff + 1;
  const erased = warmUpsSinceLampOff >= warmUpsToErase;
  return { ...state, warmUpsSinceLampOff: erased ? 0 : warmUpsSinceLampOff, stored: !erased };
}

/** What clearing by a scan tool does: everything goes but the permanent code. */
export const afterClear = (state: LampState): LampState => ({ ...lampDark, permanent: state.permanent, cleared: true });
