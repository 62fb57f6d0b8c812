/**
 * A temperature sensor whose resistance falls with heat (NTC), by the two-point beta model:
 * R = R1 exp(B (1/T - 1/T1)), B = ln(R1/R2) / (1/T1 - 1/T2), with T in kelvin. The definition of B is that of IEC 60539 (from
 * memory). True between the two points within a kelvin or two, further off beyond them.
 */

const zeroCelsiusKelvin = 273.15;
const inverseKelvin = (celsius: number): number => 1 / (celsius + zeroCelsiusKelvin);

export interface CurvePoint {
  readonly celsius: number;
  readonly ohms: number;
}

export interface Curve {
  readonly betaKelvin: number;
  readonly from: CurvePoint;
}

/**
 * Curve through two points. Null unless both are possible, at different temperatures, and the warmer one has less resistance.
 */
export function curveThrough(a: CurvePoint, b: CurvePoint): Curve | null {
  const possible = [a, b].every(({ celsius, ohms }) => celsius > -zeroCelsiusKelvin && ohms > 0);
  if (!possible || a.celsius === b.celsius) return null;
  const betaKelvin = Math.log(a.ohms / b.ohms) / (inverseKelvin(a.celsius) - inverseKelvin(b.celsius));
  return betaKelvin > 0 && Number.isFinite(betaKelvin) ? { betaKelvin, from: a } : null;
}

/** Resistance at a temperature, ohm. */
export const ohmsAt = ({ betaKelvin, from }: Curve, celsius: number): number =>
  from.ohms * Math.exp(betaKelvin * (inverseKelvin(celsius) - inverseKelvin(from.celsius)));

/** Temperature that a resistance stands for, °C; null for a resistance of nothing, or one that no temperature gives. */
export function celsiusAt({ betaKelvin, from }: Curve, ohms: number): number | null {
  if (!(ohms > 0)) return null;
  const inverse = inverseKelvin(from.celsius) + Math.log(ohms / from.ohms) / betaKelvin;
  return inverse > 0 ? 1 / inverse - zeroCelsiusKelvin : null;
}

/** Two points that many sensors share. Common practice, no source: makers differ, 10 kilohm at 25 °C is as usual. */
export const usualPoints: readonly [CurvePoint, CurvePoint] = [
  { celsius: 20, ohms: 2500 },
  { celsius: 80, ohms: 300 },
];

/** Kelvin by which a sensor may differ from its curve in the check of the sensor. Common practice, no source. */
export const allowedErrorKelvin = 5;

export type SensorReading = 'fits' | 'reads-cold' | 'reads-hot';

/** Error = temperature from the curve minus thermometer, in the outcomes of the check. */
export const readError = (errorKelvin: number): SensorReading =>
  errorKelvin < -allowedErrorKelvin ? 'reads-cold' : errorKelvin >= allowedErrorKelvin ? 'reads-hot' : 'fits';
