/** A fault found in content, as data. Position and wording are joined only in `report.ts`. */

export type Severity = 'error' | 'warning';

export interface Position {
  /** From 1. */
  readonly line: number;
  readonly column: number;
  /** Length of the marked text on its line; at least 1. */
  readonly length: number;
}

export interface Problem extends Position {
  /** Permanent, kebab-case; explained in `problem-codes.ts`. */
  readonly code: string;
  readonly severity: Severity;
  /** Path from the top of the project, with forward slashes. */
  readonly file: string;
  /** What is wrong, with the value found and what is allowed. A full sentence. */
  readonly what: string;
  /** What to do about it. A full sentence. */
  readonly mend: string;
}

export interface ContentFile {
  /** Path from the top of the project: `content/causes/worn-spark-plugs.yaml`. */
  readonly path: string;
  readonly text: string;
}

/** Errors first by file, then line and column; stable for equal positions. */
export const byPosition = (a: Problem, b: Problem): number =>
  a.file < b.file ? -1 : a.file > b.file ? 1 : a.line - b.line || a.column - b.column || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0);
