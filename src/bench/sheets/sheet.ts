/** What stands on a calculator's page beside the calculator: formula, worked table, limits, sources, and what uses it. */
import type { Knowledge } from '../../engine/knowledge.ts';

/** A source in the content ("army-od1001 lesson 3"), or one that only the bench uses, with how well it is known. */
export type SheetSource =
  | { readonly reference: string; readonly for: string }
  | { readonly text: string; readonly known: 'read' | 'second-hand' | 'memory' | 'practice'; readonly for: string };

export interface WorkedTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export interface Sheet {
  readonly id: string;
  readonly title: string;
  /** The question that it answers, in one sentence. */
  readonly asks: string;
  readonly formula: readonly string[];
  readonly symbols: readonly (readonly [symbol: string, meaning: string])[];
  /** Computed by the same functions as the calculator. */
  readonly worked: (knowledge: Knowledge) => readonly WorkedTable[];
  readonly limits: readonly string[];
  readonly sources: readonly SheetSource[];
  readonly checks: readonly string[];
  readonly families: readonly string[];
  readonly terms: readonly string[];
}
