/** What each calculator is sent with: patterns of trim, reaches, codes and units, from content and knowledge. */

import { fromBase, type Scale, toBase } from '../../bench/calc/scale.ts';
import { quantities } from '../../bench/quantities.ts';
import type { CompressionData } from '../../bench/view/Compression.tsx';
import type { CoolantSensorData } from '../../bench/view/CoolantSensor.tsx';
import type { DecodeData } from '../../bench/view/Decode.tsx';
import type { FuelTrimData } from '../../bench/view/FuelTrim.tsx';
import type { LeakDownData } from '../../bench/view/LeakDown.tsx';
import type { MisfireData } from '../../bench/view/Misfire.tsx';
import type { Named } from '../../bench/view/parts.tsx';
import type { UnitsData } from '../../bench/view/Units.tsx';
import type { VacuumData } from '../../bench/view/Vacuum.tsx';
import { type Catalogue, mentions } from '../../compile/catalogue.ts';

/** Scales by name, the first of them as the base. */
function rebased(scales: readonly Scale[], ...names: readonly string[]): readonly Scale[] {
  const picked = names.map((name) => scales.find(({ unit }) => unit === name)!);
  const base = picked[0]!;
  return picked.map(({ unit, factor, offset }) => ({
    unit,
    factor: factor / base.factor,
    offset: offset === 0 ? 0 : fromBase(toBase(0, { unit, factor, offset }), base),
  }));
}

const named = (catalogue: Catalogue, causes: readonly string[]): readonly Named[] =>
  mentions(catalogue.content, 'causes', causes).map(({ title, href }) => ({ title, href }));

function fuelTrimData(catalogue: Catalogue): FuelTrimData {
  const { content, knowledge } = catalogue;
  const causes = Object.values(knowledge.causes);
  const signatures = Object.values(knowledge.trimSignatures);
  return {
    signatures,
    about: Object.fromEntries(
      signatures.map(({ id }) => [
        id,
        {
          what: content['trim-signatures'].get(id)!.what,
          causes: named(
            catalogue,
            causes.filter(({ trims }) => trims === id).map((cause) => cause.id),
          ),
        },
      ]),
    ),
  };
}

function misfireData(catalogue: Catalogue): MisfireData {
  const { content, knowledge, links } = catalogue;
  const causes = Object.values(knowledge.causes).filter(({ id }) => links.familiesOfCause.get(id)?.includes('misfire'));
  const widest = (scope: Readonly<Record<string, number>>) => Object.entries(scope).sort(([, a], [, b]) => b - a)[0]?.[0];
  const scopes = Object.values(knowledge.scopes);
  return {
    scopes,
    about: Object.fromEntries(
      scopes.map(({ id }) => [
        id,
        {
          what: content.scopes.get(id)!.what,
          causes: named(
            catalogue,
            causes.filter(({ scope }) => widest(scope) === id).map((cause) => cause.id),
          ),
        },
      ]),
    ),
  };
}

const pressure = rebased(quantities.pressure.scales, 'kPa', 'psi', 'bar', 'inHg');

/** The data of one calculator; null for those that need none. */
export function benchData(id: string, catalogue: Catalogue): unknown {
  switch (id) {
    case 'fuel-trim':
      return fuelTrimData(catalogue);
    case 'misfire-pattern':
      return misfireData(catalogue);
    case 'vacuum-and-altitude':
      return { pressure, height: rebased(quantities.length.scales, 'm', 'ft') } satisfies VacuumData;
    case 'units':
      return { quantities: Object.values(quantities).map(({ id, title, scales }) => ({ id, title, scales })) } satisfies UnitsData;
    case 'compression':
      return { pressure: rebased(quantities.pressure.scales, 'kPa', 'psi', 'bar') } satisfies CompressionData;
    case 'leak-down':
      return { pressure: rebased(quantities.pressure.scales, 'kPa', 'psi', 'bar') } satisfies LeakDownData;
    case 'coolant-sensor':
      return { temperature: rebased(quantities.temperature.scales, '°C', '°F') } satisfies CoolantSensorData;
    case 'codes-and-bytes':
      return { codes: Object.keys(catalogue.knowledge.codes) } satisfies DecodeData;
    default:
      return null;
  }
}
