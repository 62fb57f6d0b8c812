import { describe, expect, it } from 'vitest';
import { addOutcomes, GRID, ODDS, readValue, shiftsOf } from '../../../src/engine/plan/pair-grid.ts';

const read = (values: Float64Array, first: number, second: number): number =>
  readValue(values, first, second, Math.log(first), Math.log(second));

describe('the grid of log-odds', () => {
  const linear = (a: number, b: number): Float64Array => ODDS.map((odds) => a * odds + b);

  it('reads a linear cost as it is, at any scale', () => {
    for (const odds of [0.01, 0.3, 1, 1.7, 40]) {
      expect(read(linear(7, 3), odds, 1)).toBeCloseTo(7 * odds + 3, 9);
      expect(read(linear(7, 3), odds * 0.02, 0.02)).toBeCloseTo(0.02 * (7 * odds + 3), 9);
    }
  });

  it('never reads more than the concave cost itself, inside the grid and past either end', () => {
    const cost = (first: number, second: number): number => Math.min(50 * first, 30 * second, 10 * first + 12 * second);
    const values = ODDS.map((odds) => cost(odds, 1));
    for (let log = -9; log <= 9; log += 0.05) {
      const [first, second] = [Math.exp(log), 1];
      expect(read(values, first, second)).toBeLessThan(cost(first, second) * (1 + 1e-9));
      expect(read(values, first, second)).toBeGreaterThan(cost(first, second) * 0.93);
    }
  });

  it('reads past its ends in proportion to the weight that is small there', () => {
    const values = linear(7, 3);
    const least = (ODDS[0] as number) / 4;
    const most = (ODDS[GRID - 1] as number) * 4;
    expect(read(values, least, 1)).toBeCloseTo((values[0] as number) / 4, 12);
    expect(read(values, most, 1)).toBeCloseTo(values[GRID - 1] as number, 9);
  });

  it('carries values over an outcome as reading them there would', () => {
    const values = ODDS.map((odds) => Math.min(50 * odds, 30));
    const [likelihoodFirst, likelihoodSecond] = [Float64Array.of(0.9, 0.1), Float64Array.of(0.25, 0.75)];
    const told = new Float64Array(GRID);
    addOutcomes(shiftsOf(likelihoodFirst, likelihoodSecond), values, told);
    for (let g = 0; g < GRID; g++) {
      const odds = ODDS[g] as number;
      const read0 = read(values, 0.9 * odds, 0.25);
      const read1 = read(values, 0.1 * odds, 0.75);
      expect(told[g]).toBeCloseTo(read0 + read1, 9);
    }
  });
});
