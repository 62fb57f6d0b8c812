/** Figures of the benches: quantiles, and tables that print row by row or come out as JSON at the end. */

/** The value that `share` of the values do not exceed; NaN when there are none. */
export const quantile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;

/** A number with its unit, shown with so many decimals. */
export interface Figure {
  readonly value: number;
  readonly unit: string;
  readonly places: number;
}

export const figure = (value: number, unit: string, places = 0): Figure => ({ value, unit, places });

export const percent = (share: number): Figure => figure(100 * share, '%', Math.abs(share) < 0.1 ? 2 : 1);

export type Cell = string | Figure;

interface Table {
  readonly title: string;
  readonly head: readonly string[];
  readonly rows: (readonly Cell[])[];
}

const FIRST_COLUMN = 46;
const NARROWEST = 11;

/**
 * Tables of a bench. Rows are printed as they come, for some take minutes; as JSON all tables come at the end, as a list of
 * `{ title, rows }`, each row an object by column, figures as `{ value, unit }`.
 */
export class Report {
  private readonly json: boolean;
  private readonly tables: Table[] = [];

  constructor(json: boolean) {
    this.json = json;
  }

  /** Begins a table; its first column is that of the names. */
  table(title: string, head: readonly string[]): void {
    const blank = this.tables.length > 0 ? '\n' : '';
    this.tables.push({ title, head, rows: [] });
    if (this.json) return;
    console.log(`${blank}${title}`);
    console.log(inColumns(head, head));
  }

  row(cells: readonly Cell[]): void {
    const table = this.tables.at(-1);
    if (!table) throw new Error('a row before any table');
    table.rows.push(cells);
    if (!this.json) console.log(inColumns(table.head, cells.map(shown)));
  }

  end(): void {
    if (this.json) console.log(JSON.stringify(this.tables.map(asObjects), null, 2));
  }
}

function inColumns(head: readonly string[], cells: readonly string[]): string {
  const columns = cells.map((cell, i) => (i === 0 ? cell.padEnd(FIRST_COLUMN) : cell.padStart(Math.max(NARROWEST, head[i]!.length))));
  return columns.join('  ').trimEnd();
}

const shown = (cell: Cell): string => (typeof cell === 'string' ? cell : `${cell.value.toFixed(cell.places)} ${cell.unit}`.trim());

function asObjects({ title, head, rows }: Table) {
  const plain = (cell: Cell | undefined) => (typeof cell === 'object' ? { value: cell.value, unit: cell.unit } : cell);
  return { title, rows: rows.map((cells) => Object.fromEntries(head.map((name, i) => [name, plain(cells[i])]))) };
}
