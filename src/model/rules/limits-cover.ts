import type { CheckFile } from '../schema/index.ts';
import type { Rule } from './rule.ts';

interface Interval {
  readonly from: number;
  readonly to: number;
  readonly index: number;
}

const intervalsOf = (check: CheckFile): readonly Interval[] =>
  check.outcomes
    .flatMap(({ when }, index) => (when ? [{ from: when.above ?? -Infinity, to: when.below ?? Infinity, index }] : []))
    .sort((a, b) => a.from - b.from);

/** Where outcomes of a reading carry limits, no number has two outcomes, and none between them has no outcome. */
export const limitsCover: Rule = {
  code: 'limits-overlap',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, check] of content.checks) {
      const intervals = intervalsOf(check);
      const [first] = intervals;
      if (!first) continue;
      if (!check.reading) {
        report(
          'checks',
          id,
          ['outcomes', first.index, 'when'],
          'The outcome has limits, but the check has no reading.',
          'Add "reading" with its unit and conditions.',
          { atKey: true, code: 'missing-field' },
        );
        continue;
      }
      intervals.forEach(({ to }, position) => {
        const next = intervals[position + 1];
        const at = next ? ['outcomes', next.index, 'when'] : [];
        if (next && to > next.from)
          report(
            'checks',
            id,
            at,
            `Its limits start at ${next.from}, below the end of another outcome's at ${to}.`,
            'Let the limits of the outcomes meet without overlap.',
            { atKey: true },
          );
        // An outcome without limits (a needle that swings) may take what lies between.
        else if (next && to < next.from && intervals.length === check.outcomes.length)
          report(
            'checks',
            id,
            at,
            `Its limits start at ${next.from}, but the next lower outcome's end at ${to}: a reading between has no outcome.`,
            'Let the limits of the outcomes meet.',
            { atKey: true },
          );
      });
    }
  },
};
