/**
 * What a set of misfiring cylinders shares: one cylinder, companion cylinders (same coil, 360 crank degrees apart in the
 * firing order), neighbours in the block, one bank, several, or no pattern.
 */

export const cylinderPatterns = ['single', 'companion-pair', 'neighbours', 'one-bank', 'several', 'random'] as const;
export type CylinderPattern = (typeof cylinderPatterns)[number];

export interface CylinderGeometry {
  readonly cylinders: number;
  readonly firingOrder: readonly number[];
  /** Cylinders of each bank, in their order along the crankshaft. One bank on an inline engine. */
  readonly banks: readonly (readonly number[])[];
}

export interface UsualFiringOrder {
  readonly order: readonly number[];
  readonly layout: 'inline' | 'v' | 'flat';
  /** Share among engines of that cylinder count and layout; a judgement from memory. */
  readonly share: number;
  /** Cylinders of bank 1 with that numbering. */
  readonly bank1: readonly number[];
}

/** Usual firing orders with their numbering of banks. From memory; the label on the vehicle or its service information decides. */
export const usualFiringOrders: readonly UsualFiringOrder[] = [
  { order: [1, 2, 3], layout: 'inline', share: 0.5, bank1: [1, 2, 3] },
  { order: [1, 3, 2], layout: 'inline', share: 0.5, bank1: [1, 2, 3] },
  { order: [1, 3, 4, 2], layout: 'inline', share: 0.93, bank1: [1, 2, 3, 4] },
  { order: [1, 2, 4, 3], layout: 'inline', share: 0.07, bank1: [1, 2, 3, 4] },
  { order: [1, 3, 2, 4], layout: 'flat', share: 1, bank1: [1, 3] },
  { order: [1, 2, 4, 5, 3], layout: 'inline', share: 1, bank1: [1, 2, 3, 4, 5] },
  { order: [1, 5, 3, 6, 2, 4], layout: 'inline', share: 1, bank1: [1, 2, 3, 4, 5, 6] },
  { order: [1, 2, 3, 4, 5, 6], layout: 'v', share: 0.4, bank1: [1, 3, 5] },
  { order: [1, 6, 5, 4, 3, 2], layout: 'v', share: 0.2, bank1: [1, 3, 5] },
  { order: [1, 4, 2, 5, 3, 6], layout: 'v', share: 0.4, bank1: [1, 2, 3] },
  { order: [1, 6, 3, 2, 5, 4], layout: 'flat', share: 1, bank1: [1, 3, 5] },
  { order: [1, 8, 4, 3, 6, 5, 7, 2], layout: 'v', share: 0.4, bank1: [1, 3, 5, 7] },
  { order: [1, 8, 7, 2, 6, 5, 4, 3], layout: 'v', share: 0.3, bank1: [1, 3, 5, 7] },
  { order: [1, 3, 7, 2, 6, 5, 4, 8], layout: 'v', share: 0.15, bank1: [1, 2, 3, 4] },
  { order: [1, 5, 4, 2, 6, 3, 7, 8], layout: 'v', share: 0.15, bank1: [1, 2, 3, 4] },
];

/**
 * Companion cylinders: those that reach top dead centre together, 360 crank degrees apart. The second half of the firing
 * order is written under the first half and the columns are read. Empty for an odd number of cylinders.
 */
export function companionPairs(firingOrder: readonly number[]): readonly (readonly [number, number])[] {
  if (firingOrder.length % 2 === 1) return [];
  const half = firingOrder.length / 2;
  return firingOrder.slice(0, half).map((cylinder, index) => [cylinder, firingOrder[index + half]!] as const);
}

/** Pairs of cylinders side by side in one bank. */
export function neighbourPairs(banks: readonly (readonly number[])[]): readonly (readonly [number, number])[] {
  return banks.flatMap((bank) => bank.slice(1).map((cylinder, index) => [bank[index]!, cylinder] as const));
}

const sameSet = (a: readonly number[], b: readonly number[]): boolean => a.length === b.length && a.every((item) => b.includes(item));

/** Every pattern that the set fits, most telling first; `random` when the set is empty. */
export function patternsOf(misfiring: readonly number[], geometry: CylinderGeometry): readonly CylinderPattern[] {
  if (misfiring.length === 0) return ['random'];
  if (misfiring.length === 1) return ['single'];
  const patterns: CylinderPattern[] = [];
  if (companionPairs(geometry.firingOrder).some((pair) => sameSet(pair, misfiring))) patterns.push('companion-pair');
  if (neighbourPairs(geometry.banks).some((pair) => sameSet(pair, misfiring))) patterns.push('neighbours');
  if (geometry.banks.length > 1 && geometry.banks.some((bank) => sameSet(bank, misfiring))) patterns.push('one-bank');
  return [...patterns, 'several'];
}

/**
 * P(exactly this set is named | pattern), each pattern spreading evenly over the sets that have it. `severalCode` says that
 * the code for several or random cylinders (P0300) is stored too.
 */
export function chanceOfSet(
  misfiring: readonly number[],
  severalCode: boolean,
  pattern: CylinderPattern,
  geometry: CylinderGeometry,
): number {
  const n = geometry.cylinders;
  const fits = patternsOf(misfiring, geometry).includes(pattern);
  switch (pattern) {
    case 'single':
      return fits && !severalCode ? 1 / n : fits ? 0.1 / n : 0;
    case 'companion-pair':
      return fits ? 1 / Math.max(1, companionPairs(geometry.firingOrder).length) : 0;
    case 'neighbours':
      return fits ? 1 / Math.max(1, neighbourPairs(geometry.banks).length) : 0;
    case 'one-bank':
      return fits ? 1 / geometry.banks.length : 0;
    case 'several':
      // All sets of two or more cylinders; nothing but the code for several cylinders is one more way.
      return (misfiring.length > 1 || (misfiring.length === 0 && severalCode) ? 1 : 0) / (2 ** n - n);
    case 'random':
      // Half the time only the code for several cylinders, else that and any set of cylinders as well.
      return misfiring.length === 0 ? 0.5 : (severalCode ? 0.5 : 0.15) / (2 ** n - 1);
  }
}

/** Banks from the first bank's cylinders; without it, what the usual numbering of that layout gives. */
export function banksOf(
  cylinders: number,
  layout: string | undefined,
  bank1: readonly number[] | undefined,
): readonly (readonly number[])[] {
  const all = Array.from({ length: cylinders }, (_, index) => index + 1);
  if (bank1 && bank1.length > 0 && bank1.length < cylinders) return [bank1, all.filter((cylinder) => !bank1.includes(cylinder))];
  if (layout === 'v' || layout === 'flat')
    return [all.filter((cylinder) => cylinder % 2 === 1), all.filter((cylinder) => cylinder % 2 === 0)];
  return [all];
}
