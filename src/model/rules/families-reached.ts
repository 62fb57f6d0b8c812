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
