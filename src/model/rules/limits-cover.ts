import type { Rule } from './rule.ts';

/** Where outcomes of a reading carry limits, they cover the number line once. */
export const limitsCover: Rule = {
  code: 'limits-overlap',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, check] of content.checks) {
      const limited = check.outcomes
        .map((outcome, index) => ({ ...outcome.when, index, has: outcome.when !== undefined }))
        .filter((outcome) => outcome.has);
      if (limited.length === 0) continue;
      if (!check.reading) {
        report(
          'checks',
          id,
          ['outcomes', limited[0]!.index, 'when'],
          'The outcome has limits, but the check has no reading.',
          'Add "reading" with its unit and conditions.',
          { atKey: true, code: 'missing-field' },
        );
        continue;
      }
      const sorted = limited
        .map((outcome) => ({ from: outcome.above ?? -Infinity, to: outcome.below ?? Infinity, index: outcome.index }))
        .sort((a, b) => a.from - b.from);
      sorted.forEach((interval, index) => {
        const next = sorted[index + 1];
        if (next && interval.to > next.from)
          report(
            'checks',
            id,
            ['outcomes', next.index, 'when'],
            `Its limits start at ${next.from}, below the end of another outcome's at ${interval.to}.`,
            'Let the limits of the outcomes meet without overlap.',
            { atKey: true },
          );
      });
    }
  },
};
