/** Monitor status: service 01 PID 01 of SAE J1979 (ISO 15031-5), four bytes A to D. Seen in two open programs and recalled. */

export type MonitorState = 'not-fitted' | 'complete' | 'incomplete';

export interface MonitorReport {
  /** Position in the reply: `B0` to `B2`, `C0` to `C7`. */
  readonly bit: string;
  readonly title: string;
  readonly state: MonitorState;
  /** Continuous monitors are always ready in law: 40 CFR 86.1806-05(e)(4). */
  readonly continuous: boolean;
}

export interface MonitorStatus {
  readonly lampCommandedOn: boolean;
  readonly storedCodes: number;
  readonly ignition: 'spark' | 'compression';
  readonly monitors: readonly MonitorReport[];
}

const continuousTitles = ['Misfire', 'Fuel system', 'Components'] as const;
/** For spark ignition. Bit 4 meant the air-conditioning refrigerant in early editions. */
const sparkTitles = [
  'Catalyst',
  'Heated catalyst',
  'Evaporative system',
  'Secondary air',
  'Particulate filter or refrigerant',
  'Oxygen sensor',
  'Oxygen sensor heater',
  'Exhaust gas recirculation or valve timing',
] as const;

const bit = (byte: number, position: number): boolean => ((byte >> position) & 1) === 1;

const stateOf = (fitted: boolean, incomplete: boolean): MonitorState => (fitted ? (incomplete ? 'incomplete' : 'complete') : 'not-fitted');

/** Reads the four bytes. In bytes B (upper half) and D a bit set means not complete. */
export function monitorStatus(bytes: readonly [number, number, number, number]): MonitorStatus {
  const [a, b, c, d] = bytes;
  return {
    lampCommandedOn: bit(a, 7),
    storedCodes: a & 0x7f,
    ignition: bit(b, 3) ? 'compression' : 'spark',
    monitors: [
      ...continuousTitles.map((title, position) => ({
        bit: `B${position}`,
        title,
        state: stateOf(bit(b, position), bit(b, position + 4)),
        continuous: true,
      })),
      ...sparkTitles.map((title, position) => ({
        bit: `C${position}`,
        title,
        state: stateOf(bit(c, position), bit(d, position)),
        continuous: false,
      })),
    ],
  };
}

/** Monitors that an inspection counts as unset: fitted, not complete, and not continuous. */
export const unsetMonitors = (status: MonitorStatus): readonly MonitorReport[] =>
  status.monitors.filter((monitor) => monitor.state === 'incomplete' && !monitor.continuous);
