/** The calculators by id; each is fetched only by its own page. */
import type { ComponentType } from 'preact';

export type BenchView = ComponentType<{ readonly data: never }>;

export const views: Readonly<Record<string, () => Promise<BenchView>>> = {
  'fuel-trim': async () => (await import('./view/FuelTrim.tsx')).FuelTrim,
  'misfire-pattern': async () => (await import('./view/Misfire.tsx')).Misfire,
  'vacuum-and-altitude': async () => (await import('./view/Vacuum.tsx')).Vacuum,
  units: async () => (await import('./view/Units.tsx')).Units,
  compression: async () => (await import('./view/Compression.tsx')).Compression,
  'leak-down': async () => (await import('./view/LeakDown.tsx')).LeakDown,
  'voltage-drop': async () => (await import('./view/VoltageDrop.tsx')).VoltageDrop,
  'coolant-sensor': async () => (await import('./view/CoolantSensor.tsx')).CoolantSensor,
  lambda: async () => (await import('./view/Lambda.tsx')).Lambda,
  'codes-and-bytes': async () => (await import('./view/Decode.tsx')).Decode,
  'without-the-code': async () => (await import('./view/WithoutTheCode.tsx')).WithoutTheCode,
};
