/**
 * Units of the bench, made once at build from a kept units library; only factors and offsets reach the browser. The library is
 * mathjs: of those tried it alone knows torque and carries full precision (others round the psi to six figures or have no torque).
 */
import { create, createUnitDependencies, unitDependencies } from 'mathjs';
import type { Scale } from './calc/scale.ts';

const math = create({ ...unitDependencies, ...createUnitDependencies });
// Conventional inch of mercury: NIST SP 811, appendix B.8, 3.386389 kPa (from memory of it).
math.createUnit('inHg', { definition: '3386.389 Pa' });

export interface Quantity {
  readonly id: string;
  readonly title: string;
  /** The first scale is the base unit. */
  readonly scales: readonly Scale[];
}

/** Scale of a unit from where the library puts 0 and 1 of it. */
function scale(unit: string, name: string, base: string): Scale {
  const at = (value: number) => math.unit(value, name).toNumber(base);
  const offset = at(0);
  // Without an offset the factor is exact as the library has it; subtracting would cost digits.
  return { unit, factor: offset === 0 ? at(1) : (at(100) - offset) / 100, offset };
}

const quantity = (id: string, title: string, units: readonly (readonly [unit: string, name: string])[]): Quantity => ({
  id,
  title,
  scales: units.map(([unit, name]) => scale(unit, name, units[0]![1])),
});

export const quantities = {
  torque: quantity('torque', 'Torque', [
    ['N·m', 'N m'],
    ['lbf·ft', 'lbf ft'],
    ['lbf·in', 'lbf in'],
    ['kgf·m', 'kgf m'],
  ]),
  pressure: quantity('pressure', 'Pressure and vacuum', [
    ['kPa', 'kPa'],
    ['psi', 'psi'],
    ['bar', 'bar'],
    ['inHg', 'inHg'],
    ['mbar', 'mbar'],
    ['kgf/cm²', 'kgf/cm^2'],
  ]),
  temperature: quantity('temperature', 'Temperature', [
    ['°C', 'degC'],
    ['°F', 'degF'],
    ['K', 'K'],
  ]),
  volume: quantity('volume', 'Volume', [
    ['L', 'L'],
    ['mL', 'mL'],
    ['US quart', 'quart'],
    ['US gallon', 'gallon'],
    ['US fluid ounce', 'fluidounce'],
    ['cubic inch', 'in^3'],
  ]),
  length: quantity('length', 'Length', [
    ['mm', 'mm'],
    ['in', 'in'],
    ['0.001 in', 'mil'],
    ['m', 'm'],
    ['ft', 'ft'],
    ['km', 'km'],
    ['mile', 'mile'],
  ]),
} as const satisfies Record<string, Quantity>;
