import { leavesOf } from '../tree.ts';
import type { Rule } from './rule.ts';

export const causeOnceInFamily: Rule = {
  code: 'cause-twice-in-family',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, family] of content.families) {
      const seen = new Set<string>();
      for (const leaf of leavesOf(family.tree)) {
        if (seen.has(leaf.cause))
          report(
            'families',
            id,
            [...leaf.path, 'cause'],
            `The cause "${leaf.cause}" stands twice in this tree.`,
            'Keep the place where a technician would look for it, and add the shares.',
          );
        seen.add(leaf.cause);
      }
    }
  },
};
