/** All calculators, in the order of the index. */
import { codesAndBytes } from './codes-and-bytes.ts';
import { compression } from './compression.ts';
import { coolantSensor } from './coolant-sensor.ts';
import { fuelTrim } from './fuel-trim.ts';
import { lambda } from './lambda.ts';
import { leakDown } from './leak-down.ts';
import { misfirePattern } from './misfire-pattern.ts';
import type { Sheet } from './sheet.ts';
import { units } from './units.ts';
import { vacuumAndAltitude } from './vacuum-and-altitude.ts';
import { voltageDrop } from './voltage-drop.ts';
import { withoutTheCode } from './without-the-code.ts';

export const sheets: readonly Sheet[] = [
  fuelTrim,
  misfirePattern,
  vacuumAndAltitude,
  compression,
  leakDown,
  voltageDrop,
  coolantSensor,
  lambda,
  codesAndBytes,
  withoutTheCode,
  units,
];
