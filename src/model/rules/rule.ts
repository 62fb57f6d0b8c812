/** The form of a rule: a code, a summary and a check over all content. One rule a file. */
import type { Path, YamlDocument } from '../document.ts';
import type { Severity } from '../problem.ts';
import type { ProblemCode } from '../problem-codes.ts';
import type { Content, Kind } from '../schema/index.ts';

export interface Loaded {
  /** The files that passed their schema. */
  readonly content: Content;
  readonly documents: ReadonlyMap<string, YamlDocument>;
  /** Ids of all files of a kind, also of those that did not pass their schema: a broken file still exists. */
  readonly knownIds: (kind: string) => readonly string[];
}

export type Report = (
  kind: Kind,
  id: string,
  path: Path,
  what: string,
  mend: string,
  options?: { readonly atKey?: boolean; readonly code?: ProblemCode },
) => void;

export interface Rule {
  readonly code: ProblemCode;
  readonly severity: Severity;
  /** What the rule finds changes no number: orders can be computed in spite of it. */
  readonly sparesNumbers?: boolean;
  /** Kinds of which every file must have passed its schema: the rule looks for what is absent, and a broken file is not absent. */
  readonly wants?: readonly Kind[];
  readonly check: (loaded: Loaded, report: Report) => void;
}
