import { completeRow } from '../likelihood.ts';
import type { Rule } from './rule.ts';

/** Likelihood ratio below which a check hardly moves anything. */
const weakRatio = 1.5;

const largestRatio = (rows: readonly (readonly number[])[]): number =>
  Math.max(
    ...(rows[0] ?? []).map(
      (_, outcome) => Math.max(...rows.map((row) => row[outcome]!)) / Math.max(0.005, Math.min(...rows.map((row) => row[outcome]!))),
    ),
  );

const rowsOf = (check: { outcomes: readonly { id: string }[]; otherwise: object; likelihood: object }) => {
  const outcomes = check.outcomes.map((outcome) => outcome.id);
  const base = completeRow(outcomes, check.otherwise as never, null);
  return [base, ...Object.values(check.likelihood).map((row) => completeRow(outcomes, row as never, base))];
};

export const checkTellsSomething: Rule = {
  code: 'check-tells-nothing',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, check] of content.checks)
      if (largestRatio(rowsOf(check)) < 1.0001)
        report(
          'checks',
          id,
          ['likelihood'],
          'Every cause gives every outcome the same chance.',
          'Give the causes that it can tell their own chances, or delete the check.',
          { atKey: true },
        );
  },
};

export const weakCheck: Rule = {
  code: 'weak-check',
  severity: 'warning',
  check: ({ content }, report) => {
    for (const [id, check] of content.checks) {
      const ratio = largestRatio(rowsOf(check));
      if (ratio >= 1.0001 && ratio < weakRatio)
        report(
          'checks',
          id,
          ['likelihood'],
          `Its strongest outcome moves no cause by more than ${ratio.toFixed(2)} times.`,
          'Sharpen the reading, or drop the check.',
          { atKey: true },
        );
    }
  },
};
