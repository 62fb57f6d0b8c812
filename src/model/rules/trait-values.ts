import { didYouMean } from '../nearest.ts';
import type { Rule } from './rule.ts';

/** `needs` names values that its traits have. */
export const traitValues: Rule = {
  code: 'word-unknown-to-vocabulary',
  severity: 'error',
  check: ({ content }, report) => {
    for (const kind of ['causes', 'checks', 'families'] as const) {
      for (const [id, file] of content[kind]) {
        for (const [trait, values] of Object.entries(file.needs)) {
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
