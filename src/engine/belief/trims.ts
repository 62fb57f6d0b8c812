/**
 * Fuel trims as evidence. Total trim (short + long) of a bank is normal round the signature of the cause: its value at idle,
 * and its change up to 2,500 rpm. In between the change counts in proportion to engine speed.
 */
import type { FreezeFrame, TrimReadings } from '../case.ts';
import type { TrimSignature } from '../knowledge.ts';

export interface TrimPoint {
  readonly bank: 1 | 2;
  /** 0 at idle (800 rpm), 1 at 2,500 rpm and above. */
  readonly speedWeight: number;
  readonly percent: number;
}

const idleRpm = 800;
const upperRpm = 2500;
/** Scatter of a live reading beside that of the signatures. */
const readingSdPercent = 2;
/** Weight of a flat density for readings that fit nothing: a mistyped number must not settle the matter. */
const flatWeight = 0.03;
const flatDensity = 1 / 100;

/** A trim signature for causes that name none: wide, round zero. */
export const unknownSignature: TrimSignature = {
  id: 'unknown',
  title: 'Unknown',
  atIdle: { meanPercent: 0, sdPercent: 12 },
  change: { meanPercent: 0, sdPercent: 8 },
};
/** The other bank of a fault that reaches one bank. */
export const untouchedSignature: TrimSignature = {
  id: 'untouched',
  title: 'Untouched',
  atIdle: { meanPercent: 1, sdPercent: 5 },
  change: { meanPercent: 0, sdPercent: 4 },
};

/** Collects the points that were given. Total trims of the freeze frame count at its engine speed. */
export function trimPoints(trims: TrimReadings | undefined, frame: FreezeFrame | undefined): readonly TrimPoint[] {
  const points: TrimPoint[] = [];
  const add = (bank: 1 | 2, speedWeight: number, percent: number | undefined) => {
    if (percent !== undefined && Number.isFinite(percent)) points.push({ bank, speedWeight, percent });
  };
  add(1, 0, trims?.idleBank1Percent);
  add(2, 0, trims?.idleBank2Percent);
  add(1, 1, trims?.at2500Bank1Percent);
  add(2, 1, trims?.at2500Bank2Percent);
  const speedWeight =
    frame?.engineSpeedRpm === undefined ? 0.5 : Math.min(1, Math.max(0, (frame.engineSpeedRpm - idleRpm) / (upperRpm - idleRpm)));
  for (const bank of [1, 2] as const) {
    const short = bank === 1 ? frame?.shortTrim1Percent : frame?.shortTrim2Percent;
    const long = bank === 1 ? frame?.longTrim1Percent : frame?.longTrim2Percent;
    // Live readings are better than the frozen ones; of these only one speed is known.
    if ((short !== undefined || long !== undefined) && !points.some((point) => point.bank === bank))
      add(bank, speedWeight, (short ?? 0) + (long ?? 0));
  }
  return points;
}

const normalDensity = (x: number, mean: number, sd: number): number =>
  Math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));

/** Density of one bank's points under a signature. Points at idle and at speed are tied by the signature's change. */
export function trimDensity(points: readonly TrimPoint[], signature: TrimSignature): number {
  if (points.length === 0) return 1;
  const idle = points.find((point) => point.speedWeight === 0);
  const rest = points.filter((point) => point !== idle);
  let density = 1;
  if (idle)
    density *= mix(normalDensity(idle.percent, signature.atIdle.meanPercent, Math.hypot(signature.atIdle.sdPercent, readingSdPercent)));
  for (const point of rest) {
    const w = point.speedWeight;
    density *= idle
      ? mix(
          normalDensity(
            point.percent - idle.percent,
            w * signature.change.meanPercent,
            Math.hypot(w * signature.change.sdPercent, readingSdPercent),
          ),
        )
      : mix(
          normalDensity(
            point.percent,
            signature.atIdle.meanPercent + w * signature.change.meanPercent,
            Math.hypot(signature.atIdle.sdPercent, w * signature.change.sdPercent, readingSdPercent),
          ),
        );
  }
  return density;
}

const mix = (density: number): number => (1 - flatWeight) * density + flatWeight * flatDensity;

/**
 * Density of all points under a cause that reaches one bank with chance `oneBank`. `codeBank` is the bank that codes name
 * alone, or null.
 */
export function trimLikelihood(points: readonly TrimPoint[], signature: TrimSignature, oneBank: number, codeBank: 1 | 2 | null): number {
  const first = points.filter((point) => point.bank === 1);
  const second = points.filter((point) => point.bank === 2);
  const both = trimDensity(first, signature) * trimDensity(second, signature);
  if (second.length === 0)
    return codeBank === 2 ? oneBank * trimDensity(first, untouchedSignature) + (1 - oneBank) * both : trimDensity(first, signature);
  const onFirst = trimDensity(first, signature) * trimDensity(second, untouchedSignature);
  const onSecond = trimDensity(first, untouchedSignature) * trimDensity(second, signature);
  const one = codeBank === 1 ? onFirst : codeBank === 2 ? onSecond : (onFirst + onSecond) / 2;
  return oneBank * one + (1 - oneBank) * both;
}
