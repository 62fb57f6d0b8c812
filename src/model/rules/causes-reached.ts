import { completeRow } from '../likelihood.ts';
import { leavesOf } from '../tree.ts';
import type { Rule } from './rule.ts';

/** A check points at a cause when one of its outcomes is at least this many times likelier under it than otherwise. */
const pointsAt = 3;

/** Every cause can be confirmed by a check, or by its repair tried as a test. */
export const causeConfirmable: Rule = {
  code: 'cause-cannot-be-confirmed',
  severity: 'error',
  sparesNumbers: true,
  wants: ['checks'],
  check: ({ content }, report) => {
    const confirmed = new Set<string>();
    for (const check of content.checks.values()) {
      const outcomes = check.outcomes.map((outcome) => outcome.id);
      const base = completeRow(outcomes, check.otherwise, null);
      for (const [cause, row] of Object.entries(check.likelihood)) {
        const full = completeRow(outcomes, row, base);
        if (full.some((chance, outcome) => chance >= pointsAt * Math.max(0.005, base[outcome]!))) confirmed.add(cause);
      }
    }
    for (const [id, cause] of content.causes)
      if (!confirmed.has(id) && !cause.repair.tryAsTest)
        report(
          'causes',
          id,
          ['title'],
          `No check has an outcome at least ${pointsAt} times likelier with this cause, and its repair is not a test.`,
          'Give a check a row for it, or set repair.tryAsTest where the repair is cheap and harmless.',
        );
  },
};

export const causeInFamily: Rule = {
  code: 'cause-without-family',
  severity: 'warning',
  wants: ['families'],
  check: ({ content }, report) => {
    const used = new Set([...content.families.values()].flatMap((family) => leavesOf(family.tree).map((leaf) => leaf.cause)));
    for (const id of content.causes.keys())
      if (!used.has(id))
        report('causes', id, ['title'], 'No family has this cause in its tree.', 'Add it to the tree of each family whose codes it sets.');
  },
};

export const symptomShown: Rule = {
  code: 'symptom-shown-by-none',
  severity: 'warning',
  wants: ['causes'],
  check: ({ content }, report) => {
    const shown = new Set([...content.causes.values()].flatMap((cause) => Object.keys(cause.shows)));
    for (const id of content.symptoms.keys())
      if (!shown.has(id)) report('symptoms', id, ['title'], 'No cause shows this symptom.', 'Add it to "shows" of the causes that do.');
  },
};
