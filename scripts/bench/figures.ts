/** Figures of the benches: quantiles, and tables in columns. */

/** The value that `share` of the values do not exceed; NaN when there are none. */
export const quantile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;

/** Prints rows of equal length, the first being the head, in columns. */
export function print(rows: readonly (readonly string[])[]): void {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((cells) => cells[column]!.length)));
  for (const cells of rows)
    console.log(
      cells
        .map((cell, column) => cell.padEnd(widths[column]!))
        .join('  ')
        .trimEnd(),
    );
}
