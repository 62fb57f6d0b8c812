/** The calculators by id, for the build. In the browser each page fetches its own alone. */
import type { ComponentType } from 'preact';
import { Compression } from './view/Compression.tsx';
import { CoolantSensor } from './view/CoolantSensor.tsx';
import { Decode } from './view/Decode.tsx';
import { FuelTrim } from './view/FuelTrim.tsx';
import { Lambda } from './view/Lambda.tsx';
import { LeakDown } from './view/LeakDown.tsx';
import { Misfire } from './view/Misfire.tsx';
import { Units } from './view/Units.tsx';
import { Vacuum } from './view/Vacuum.tsx';
import { VoltageDrop } from './view/VoltageDrop.tsx';
import { WithoutTheCode } from './view/WithoutTheCode.tsx';

export const views: Readonly<Record<string, ComponentType<{ readonly data: never }>>> = {
  'fuel-trim': FuelTrim,
  'misfire-pattern': Misfire,
  'vacuum-and-altitude': Vacuum,
  compression: Compression,
  'leak-down': LeakDown,
  'voltage-drop': VoltageDrop,
  'coolant-sensor': CoolantSensor,
  lambda: Lambda,
  'codes-and-bytes': Decode,
  'without-the-code': WithoutTheCode,
  units: Units,
};
