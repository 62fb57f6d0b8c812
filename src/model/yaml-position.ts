/** Offsets and nodes of YAML -> positions. */
import type { Position } from './problem.ts';
import type { ProblemCode } from './problem-codes.ts';

/** A position from offsets into the text; the mark ends with its line. */
export type Locate = (from: number, to?: number) => Position;

/** Reports a fault of the YAML itself. */
export type ReportYaml = (code: ProblemCode, position: Position, what: string, mend: string) => void;

export const start: Position = { line: 1, column: 1, length: 1 };

/** The marked part of a node: from its start to its end, or to the end of its first line. */
export const rangeOf = (node: { range?: readonly [number, number, number] | null | undefined } | null, locate: Locate): Position =>
  node?.range ? locate(node.range[0], node.range[1]) : start;
