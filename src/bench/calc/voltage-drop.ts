/** Voltage drop across a part of a circuit that carries current. Ohm's law; the drop is a part of the supply that the load never gets. */

export interface Drop {
  /** Drop / supply, 0 to 1. */
  readonly share: number;
  /** Volts left for the rest of the circuit. */
  readonly leftVolts: number;
  /** Drop / current, ohm; null without a current. */
  readonly ohms: number | null;
  /** Drop x current, watt: heat at the poor joint; null without a current. */
  readonly lostWatts: number | null;
}

/** Null when the supply is not above zero, or the drop is not between zero and the supply. */
export function dropOf(supplyVolts: number, dropVolts: number, currentAmperes: number | null): Drop | null {
  if (!(supplyVolts > 0) || !(dropVolts >= 0) || dropVolts > supplyVolts) return null;
  const current = currentAmperes !== null && currentAmperes > 0 ? currentAmperes : null;
  const share = dropVolts / supplyVolts;
  return {
    share,
    leftVolts: supplyVolts - dropVolts,
    ohms: current === null ? null : dropVolts / current,
    lostWatts: current === null ? null : dropVolts * current,
  };
}

export interface UsualLimit {
  readonly id: string;
  readonly title: string;
  readonly limitVolts: number;
  /** Id of the check that measures it; null when none does. */
  readonly check: string | null;
}

/** Usual limits. Common practice, no source: the service information of the vehicle goes first. */
export const usualLimits: readonly UsualLimit[] = [
  { id: 'ground-cranking', title: 'Ground of the engine, cranking', limitVolts: 0.3, check: 'voltage-drop-ground' },
  { id: 'ground-running', title: 'Ground of body or loom, loads on', limitVolts: 0.1, check: 'voltage-drop-ground' },
  {
    id: 'charge-cable',
    title: 'Charge cable, 1,500 rpm, loads on',
    limitVolts: 0.3,
    check: 'voltage-drop-charge-cable',
  },
  { id: 'starter-cable', title: 'Starter’s plus cable, cranking', limitVolts: 0.5, check: null },
  { id: 'joint', title: 'One plug, switch or contact', limitVolts: 0.2, check: null },
];
