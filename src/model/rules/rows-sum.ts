import { completeRow, rowFault } from '../likelihood.ts';
import { didYouMean } from '../nearest.ts';
import type { Rule } from './rule.ts';

/** Every row of chances names outcomes of its check and sums to 1. */
export const rowsSum: Rule = {
  code: 'row-does-not-sum',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, check] of content.checks) {
      const outcomes = check.outcomes.map((outcome) => outcome.id);
      const base = completeRow(outcomes, check.otherwise, null);
      for (const [path, row] of [
        [['otherwise'], check.otherwise] as const,
        ...Object.entries(check.likelihood).map(([cause, row]) => [['likelihood', cause], row] as const),
      ]) {
        for (const outcome of Object.keys(row)) {
          if (!outcomes.includes(outcome))
            report(
              'checks',
              id,
              [...path, outcome],
              `"${outcome}" is not an outcome of this check (${outcomes.join(', ')}).`,
              `Correct the name.${didYouMean(outcome, outcomes)}`,
              { atKey: true, code: 'unknown-outcome' },
            );
        }
        const fault = rowFault(outcomes, row, path[0] === 'otherwise' ? null : base);
        if (fault)
          report(
            'checks',
            id,
            [...path],
            fault,
            'Make the named chances sum to at most 1, and to exactly 1 where all outcomes are named.',
            { atKey: true },
          );
      }
    }
  },
};
