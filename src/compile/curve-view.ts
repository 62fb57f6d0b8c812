/** Chance solved against money spent, as a figure: geometry only, drawn by a component. */
import type { Strategy } from '../engine/plan/index.ts';
import type { Order } from './order.ts';
import { strategyTitles } from './plan-report.ts';

export interface CurveLine {
  readonly strategy: Strategy;
  readonly title: string;
  readonly path: string;
  /** Where the line ends, for its label. */
  readonly end: { readonly x: number; readonly y: number };
}

export interface CurveView {
  readonly width: number;
  readonly height: number;
  readonly lines: readonly CurveLine[];
  readonly costTicks: readonly { readonly at: number; readonly label: string }[];
  readonly chanceTicks: readonly { readonly at: number; readonly label: string }[];
  readonly plot: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
}

const size = { width: 720, height: 380 };
const plot = { left: 56, right: 706, top: 14, bottom: 336 };

/** Steps of 1, 2 or 5 times a power of ten, at most `most` of them up to `end`. */
export function ticksTo(end: number, most: number): readonly number[] {
  const rough = end / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((candidate) => candidate >= rough - 1e-9) ?? 10 * power;
  return Array.from({ length: Math.floor(end / step + 1e-9) + 1 }, (_, index) => index * step);
}

/** Lines that never solve anything (handing over at once) are left out. The axis ends where nearly all of each line is told. */
export function curveView(order: Order): CurveView {
  const drawn = order.orders.filter(({ curve }) => curve.length > 1);
  const dearest = Math.max(1, ...drawn.map(({ curve }) => costOfShare(curve, 0.97)));
  const x = (cost: number) => Number((plot.left + ((plot.right - plot.left) * Math.min(cost, dearest)) / dearest).toFixed(1));
  const y = (chance: number) => Number((plot.bottom - (plot.bottom - plot.top) * chance).toFixed(1));
  return {
    ...size,
    plot,
    lines: drawn.map(({ strategy, curve }) => {
      const shown = curve.filter(([cost]) => cost <= dearest);
      const last = shown.at(-1)!;
      const path = shown.map(([cost, chance], index) => (index === 0 ? `M${x(cost)} ${y(chance)}` : `H${x(cost)}V${y(chance)}`)).join('');
      return { strategy, title: strategyTitles[strategy], path: `${path}H${plot.right}`, end: { x: plot.right, y: y(last[1]) } };
    }),
    costTicks: ticksTo(dearest, 6).map((cost) => ({ at: x(cost), label: `$${Math.round(cost)}` })),
    chanceTicks: [0, 0.25, 0.5, 0.75, 1].map((chance) => ({ at: y(chance), label: `${100 * chance} %` })),
  };
}

/** The cost by which a line has told this share of all that it will ever solve. */
function costOfShare(curve: readonly (readonly [number, number])[], share: number): number {
  const end = curve.at(-1)![1];
  return curve.find(([, chance]) => chance >= share * end)?.[0] ?? 0;
}
