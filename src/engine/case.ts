/** What is known about one car: the evidence that moves the belief, and the work already done. Every part may be left out. */

export type Presence = 'present' | 'absent';

/** Values of traits by id (`{ ignition: 'waste-spark' }`), and the few that are not words. */
export interface EngineTraits {
  readonly cylinders?: number;
  /** Cylinder numbers in the order in which they fire. */
  readonly firingOrder?: readonly number[];
  /** Cylinders of bank 1 (the bank with cylinder 1); the rest are bank 2. Needed only where odd/even or halves do not tell. */
  readonly bank1?: readonly number[];
  /** Ids of the recent-work vocabulary: what was touched last. */
  readonly recentWork?: readonly string[];
  /** Any trait of the vocabulary: layout, ignition, ... */
  readonly [trait: string]: string | number | readonly number[] | readonly string[] | undefined;
}

/** Stored with the first code (SAE J1979 service 02), or read live. Numbers, in the units of their names. */
export interface FreezeFrame {
  readonly engineSpeedRpm?: number;
  readonly loadPercent?: number;
  readonly coolantCelsius?: number;
  readonly intakeAirCelsius?: number;
  readonly vehicleSpeedKmh?: number;
  readonly manifoldKpa?: number;
  readonly airFlowGramsPerSecond?: number;
  readonly throttlePercent?: number;
  readonly shortTrim1Percent?: number;
  readonly longTrim1Percent?: number;
  readonly shortTrim2Percent?: number;
  readonly longTrim2Percent?: number;
}

/** Total fuel trim (short + long term), percent, read warm. */
export interface TrimReadings {
  readonly idleBank1Percent?: number;
  readonly idleBank2Percent?: number;
  readonly at2500Bank1Percent?: number;
  readonly at2500Bank2Percent?: number;
}

export interface CheckResult {
  readonly check: string;
  readonly outcome: string;
  /**
   * A repair since then may have changed what the check reads. What it showed still counts, as it does in a plan that foresees
   * a repair; but the check is no longer done, and may be proposed again.
   */
  readonly spoiled?: boolean;
}

export interface Case {
  readonly codes?: readonly string[];
  readonly engine?: EngineTraits;
  readonly symptoms?: Readonly<Record<string, Presence>>;
  readonly conditions?: Readonly<Record<string, Presence>>;
  readonly freezeFrame?: FreezeFrame;
  readonly trims?: TrimReadings;
  /** Ids of parts (or of causes: then all parts that remove it) already replaced. */
  readonly replaced?: readonly string[];
  /** In the order in which they were found. */
  readonly results?: readonly CheckResult[];
  /** Causes whose repair was tried and did not remove the fault. */
  readonly repaired?: readonly string[];
  /** Checks and repairs (`cause` ids) that cannot be done here. */
  readonly notPossible?: readonly string[];
  /** Tools owned beside those that everybody has. */
  readonly tools?: readonly string[];
  /** Set-ups already made in this job. */
  readonly setUpsDone?: readonly string[];
  readonly engineIsWarm?: boolean;
  /** What an hour of one's own work is worth, in the content's currency. Default 20. */
  readonly hourlyRate?: number;
}
