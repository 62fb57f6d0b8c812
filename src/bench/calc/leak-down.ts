/** Leak-down: how much of the air fed into a cylinder is lost. Both gauges of the tester, or its percent scale. */

/**
 * Loss as a part of the pressure fed: (regulated - held) / regulated. Exact only for testers whose restrictor is made for it;
 * null when the figures cannot be.
 */
export function leakage(regulatedKpa: number, heldKpa: number): number | null {
  return regulatedKpa > 0 && heldKpa >= 0 && heldKpa <= regulatedKpa ? (regulatedKpa - heldKpa) / regulatedKpa : null;
}

export type LeakageReading = 'good' | 'fair' | 'poor';

/** Below 10 percent good, to 20 fair, beyond poor. Common practice, no source: testers differ, and the place of the hiss tells more. */
export const readLeakage = (share: number): LeakageReading => (share < 0.1 ? 'good' : share < 0.2 ? 'fair' : 'poor');
