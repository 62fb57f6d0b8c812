import { leavesOf } from '../tree.ts';
import type { Rule } from './rule.ts';

export const familyHasCode: Rule = {
  code: 'family-without-code',
  severity: 'warning',
  wants: ['codes'],
  check: ({ content }, report) => {
    const reached = new Set([...content.codes.values()].map((group) => group.family));
    for (const id of content.families.keys())
      if (!reached.has(id))
        report(
          'families',
          id,
          ['title'],
          'No group of codes leads to this family.',
          'Write content/codes/ for it, with "family" naming it.',
        );
  },
};

/** Least part of a tree that its reader can mend without a professional, on an engine of average traits. */
const leastWithinReach = 0.9;

export const familyWithinReach: Rule = {
  code: 'family-mostly-handed-over',
  severity: 'warning',
  wants: ['causes'],
  check: ({ content }, report) => {
    /** P(a cause with these needs exists), each trait by the shares of its values. */
    const existence = (needs: Readonly<Record<string, readonly string[]>>): number =>
      Object.entries(needs).reduce((chance, [trait, values]) => {
        const shares = content.traits.get(trait)?.values ?? [];
        return chance * shares.filter((value) => values.includes(value.id)).reduce((total, value) => total + value.share, 0);
      }, 1);
    for (const [id, family] of content.families) {
      let within = 0;
      let all = 0;
      for (const leaf of leavesOf(family.tree)) {
        const cause = content.causes.get(leaf.cause);
        const weight = cause ? leaf.share * existence(cause.needs) : 0;
        all += weight;
        if (cause && !cause.repair.professionalOnly) within += weight;
      }
      if (all > 0 && within / all < leastWithinReach)
        report(
          'families',
          id,
          ['tree'],
          `Only ${Math.round((100 * within) / all)} in 100 of this tree can be mended without a professional; at least ${100 * leastWithinReach} are wanted.`,
          'Look again at "professionalOnly" of its causes and at their shares, or split the family.',
          { atKey: true },
        );
    }
  },
};
