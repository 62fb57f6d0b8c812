import { didYouMean } from '../nearest.ts';
import type { Rule } from './rule.ts';

const needsOf = (file: object): Readonly<Record<string, readonly string[]>> =>
  'needs' in file ? (file.needs as Record<string, string[]>) : {};

/** `needs` names values that its traits have. */
export const traitValues: Rule = {
  code: 'word-unknown-to-vocabulary',
  severity: 'error',
  check: ({ content }, report) => {
    for (const kind of ['causes', 'checks', 'families'] as const) {
      for (const [id, file] of content[kind]) {
        for (const [trait, values] of Object.entries(needsOf(file))) {
          const known = content.traits.get(trait)?.values.map((value) => value.id);
          if (!known) continue;
          values.forEach((value, index) => {
            if (!known.includes(value))
              report(
                kind,
                id,
                ['needs', trait, index],
                `"${value}" is not a value of the trait ${trait} (${known.join(', ')}).`,
                `Correct it.${didYouMean(value, known)}`,
              );
          });
        }
      }
    }
  },
};

/** A check has no row for a cause that can never exist on an engine that has the check. */
export const likelihoodFits: Rule = {
  code: 'likelihood-for-other-engine',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, check] of content.checks) {
      for (const cause of Object.keys(check.likelihood)) {
        const other = content.causes.get(cause);
        if (!other) continue;
        for (const [trait, values] of Object.entries(check.needs)) {
          const wanted = other.needs[trait];
          if (wanted && !wanted.some((value) => values.includes(value)))
            report(
              'checks',
              id,
              ['likelihood', cause],
              `The check needs ${trait} ${values.join(' or ')}, the cause ${wanted.join(' or ')}: they never meet.`,
              'Remove the row, or widen "needs".',
              { atKey: true },
            );
        }
      }
    }
  },
};
