/** Units of one quantity as scales: a number in the unit -> the base unit, by factor and offset. The unit table is made once, at build. */

export interface Scale {
  readonly unit: string;
  /** In the base unit = number * factor + offset. The offset is 0 but for temperatures. */
  readonly factor: number;
  readonly offset: number;
}

/** A number in the scale's unit, in the base unit. */
export const toBase = (value: number, { factor, offset }: Scale): number => value * factor + offset;

/** A number in the base unit, in the scale's unit. */
export const fromBase = (value: number, { factor, offset }: Scale): number => (value - offset) / factor;
