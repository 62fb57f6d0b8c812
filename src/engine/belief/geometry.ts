/** Engine geometries that fit what is known, with weights that sum to 1. */
import type { EngineTraits } from '../case.ts';
import { banksOf, type CylinderGeometry, usualFiringOrders } from './cylinders.ts';

export interface WeightedGeometry {
  readonly geometry: CylinderGeometry;
  readonly weight: number;
}

/** Shares of cylinder counts among older petrol cars; a judgement. */
const cylinderCounts: readonly (readonly [number, number])[] = [
  [3, 0.04],
  [4, 0.62],
  [5, 0.03],
  [6, 0.22],
  [8, 0.09],
];

/** All geometries that agree with the traits and have the cylinders named. */
export function geometriesFor(
  engine: EngineTraits,
  misfiring: readonly number[],
  layoutShares: Readonly<Record<string, number>>,
): readonly WeightedGeometry[] {
  const highest = Math.max(0, ...misfiring);
  const fromOrder = engine.firingOrder?.length;
  const counts: readonly (readonly [number, number])[] =
    engine.cylinders !== undefined || fromOrder !== undefined
      ? [[Math.max(engine.cylinders ?? fromOrder!, highest), 1]]
      : cylinderCounts.some(([count]) => count >= highest)
        ? cylinderCounts.filter(([count]) => count >= highest)
        : [[highest, 1]];
  const found = counts.flatMap(([cylinders, countWeight]) => {
    if (engine.firingOrder && engine.firingOrder.length === cylinders)
      return [
        {
          geometry: {
            cylinders,
            firingOrder: engine.firingOrder,
            banks: banksOf(cylinders, engine['layout'] as string | undefined, engine.bank1),
          },
          weight: countWeight,
        },
      ];
    const usual = usualFiringOrders.filter(
      (entry) => entry.order.length === cylinders && (engine['layout'] === undefined || entry.layout === engine['layout']),
    );
    if (usual.length === 0) {
      const order = Array.from({ length: cylinders }, (_, index) => index + 1);
      return [
        {
          geometry: { cylinders, firingOrder: order, banks: banksOf(cylinders, engine['layout'] as string | undefined, engine.bank1) },
          weight: countWeight,
        },
      ];
    }
    return usual.map((entry) => ({
      geometry: {
        cylinders,
        firingOrder: entry.order,
        banks:
          entry.layout === 'inline'
            ? banksOf(cylinders, 'inline', undefined)
            : banksOf(cylinders, entry.layout, engine.bank1 ?? entry.bank1),
      },
      weight: countWeight * entry.share * (engine['layout'] === undefined ? (layoutShares[entry.layout] ?? 0.1) : 1),
    }));
  });
  const sum = found.reduce((total, { weight }) => total + weight, 0);
  return found.map(({ geometry, weight }) => ({ geometry, weight: weight / sum }));
}
