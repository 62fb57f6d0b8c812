import { leavesOf } from '../tree.ts';
import type { Rule } from './rule.ts';

type Needs = Readonly<Record<string, readonly string[]>>;

/** The first trait of which two things need different values, as "ignition waste-spark, ... coil-on-plug"; null when a car can have both. */
function conflict(one: Needs, other: Needs): { readonly trait: string; readonly one: string; readonly other: string } | null {
  for (const [trait, values] of Object.entries(one)) {
    const wanted = other[trait];
    if (wanted && !wanted.some((value) => values.includes(value))) return { trait, one: values.join(' or '), other: wanted.join(' or ') };
  }
  return null;
}

/** A check has no row for a cause that can never exist on an engine that has the check. */
export const likelihoodFits: Rule = {
  code: 'likelihood-for-other-engine',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, check] of content.checks) {
      for (const cause of Object.keys(check.likelihood)) {
        const found = conflict(check.needs, content.causes.get(cause)?.needs ?? {});
        if (found)
          report(
            'checks',
            id,
            ['likelihood', cause],
            `The check needs ${found.trait} ${found.one}, the cause ${found.other}: they never meet.`,
            'Remove the row, or widen "needs".',
            { atKey: true },
          );
      }
    }
  },
};

/** A family has no cause that can never exist on an engine that stores its codes. */
export const causeFitsFamily: Rule = {
  code: 'cause-for-other-engine',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, family] of content.families) {
      for (const leaf of leavesOf(family.tree)) {
        const found = conflict(family.needs, content.causes.get(leaf.cause)?.needs ?? {});
        if (found)
          report(
            'families',
            id,
            [...leaf.path, 'cause'],
            `The family needs ${found.trait} ${found.one}, the cause ${found.other}: they never meet.`,
            'Take the cause out of this tree, or widen "needs".',
          );
      }
    }
  },
};
