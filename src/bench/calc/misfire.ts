/** What a set of misfiring cylinders shares, and where each sits when one looks down on the engine. */

import {
  banksOf,
  type CylinderGeometry,
  chanceOfSet,
  companionPairs,
  cylinderPatterns,
  neighbourPairs,
  patternsOf,
} from '../../engine/belief/cylinders.ts';
import type { ScopeFacts } from '../../engine/knowledge.ts';

export type Layout = 'inline' | 'v' | 'flat';

/** "1-3-4-2", "1 3 4 2", "1,3,4,2" or "1342" -> the order; null unless it names 2 to 12 cylinders from 1 up, each once. */
export function readFiringOrder(text: string): readonly number[] | null {
  const parts = text.trim().match(/\d+/g) ?? [];
  const numbers = parts.length === 1 ? [...parts[0]!].map(Number) : parts.map(Number);
  const sorted = [...numbers].sort((a, b) => a - b);
  return numbers.length >= 2 && numbers.length <= 12 && sorted.every((number, index) => number === index + 1) ? numbers : null;
}

/** Geometry of an engine; bank 1 by its cylinders, or by the usual numbering of the layout. */
export const geometryOf = (firingOrder: readonly number[], layout: Layout, bank1?: readonly number[]): CylinderGeometry => ({
  cylinders: firingOrder.length,
  firingOrder,
  banks: layout === 'inline' ? banksOf(firingOrder.length, 'inline', undefined) : banksOf(firingOrder.length, layout, bank1),
});

/** Crank degrees between two power strokes of a four-stroke engine that fires evenly: 720 / cylinders. */
export const firingIntervalDegrees = (cylinders: number): number => 720 / cylinders;

export interface Shared {
  /** Companions (same coil on a paired-coil engine), whole pairs among the misfiring. */
  readonly companions: readonly (readonly [number, number])[];
  /** Neighbours in one bank, both misfiring. */
  readonly neighbours: readonly (readonly [number, number])[];
  /** Index of the bank that is misfiring whole and alone, or null. */
  readonly wholeBank: number | null;
  /** Index of the bank that holds every misfiring cylinder of an engine with two banks, or null. */
  readonly insideBank: number | null;
  readonly patterns: ReturnType<typeof patternsOf>;
}

/** What the misfiring cylinders share. Pairs are listed whenever both of the pair misfire, however many others do. */
export function sharedBy(misfiring: readonly number[], geometry: CylinderGeometry): Shared {
  const both = ([a, b]: readonly [number, number]) => misfiring.includes(a) && misfiring.includes(b);
  const inside = geometry.banks.findIndex((bank) => misfiring.every((cylinder) => bank.includes(cylinder)));
  const twoBanks = geometry.banks.length > 1 && misfiring.length > 0;
  return {
    companions: companionPairs(geometry.firingOrder).filter(both),
    neighbours: neighbourPairs(geometry.banks).filter(both),
    wholeBank: twoBanks && inside >= 0 && geometry.banks[inside]!.length === misfiring.length ? inside : null,
    insideBank: twoBanks && inside >= 0 ? inside : null,
    patterns: patternsOf(misfiring, geometry),
  };
}

export interface ScopeFit {
  readonly scope: ScopeFacts;
  /** Share among all scopes when each is taken as equally likely before. Sums to 1. */
  readonly share: number;
}

/** What the fault reaches, by how well it explains exactly this set; best first. Empty for an empty set without the several-cylinder code. */
export function scopeFits(
  misfiring: readonly number[],
  severalCode: boolean,
  geometry: CylinderGeometry,
  scopes: readonly ScopeFacts[],
): readonly ScopeFit[] {
  if (misfiring.length === 0 && !severalCode) return [];
  const chances = scopes.map((scope) =>
    cylinderPatterns.reduce(
      (sum, pattern) => sum + (scope.cylinderPatterns[pattern] ?? 0) * chanceOfSet(misfiring, severalCode, pattern, geometry),
      0,
    ),
  );
  const sum = chances.reduce((total, chance) => total + chance, 0);
  if (sum === 0) return [];
  return scopes
    .map((scope, index) => ({ scope, share: chances[index]! / sum }))
    .sort((a, b) => b.share - a.share || (a.scope.id < b.scope.id ? -1 : 1));
}

export interface Bore {
  readonly cylinder: number;
  readonly x: number;
  readonly y: number;
}

/** Distance of two bores, and radius, in units of the drawing: a bore may be touched, so it is 48 wide. */
export const borePitch = 56;
export const boreRadius = 24;

/**
 * Bores seen from above, front of the engine on the left. Banks lie one above the other; in a V or flat engine the
 * second bank stands half a pitch further back, as connecting rods that share a crankpin make it.
 */
export function boresFromAbove({ banks }: CylinderGeometry): readonly Bore[] {
  return banks.flatMap((bank, row) =>
    bank.map((cylinder, place) => ({
      cylinder,
      x: boreRadius + 4 + place * borePitch + (banks.length > 1 ? row * (borePitch / 2) : 0),
      y: boreRadius + 4 + row * (borePitch + 24),
    })),
  );
}

/** Trouble code of a misfire on one cylinder: P0301 to P0312 (SAE J2012). */
export const misfireCode = (cylinder: number): string => `P03${String(cylinder).padStart(2, '0')}`;
