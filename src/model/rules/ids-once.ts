import type { Rule } from './rule.ts';

/** Entries that others refer to by id have each their own: outcomes of a check, values of a trait. */
export const idsOnce: Rule = {
  code: 'duplicate-id',
  severity: 'error',
  check: ({ content }, report) => {
    const once = (kind: 'checks' | 'traits', id: string, field: string, entries: readonly { readonly id: string }[]) => {
      entries.forEach((entry, index) => {
        const first = entries.findIndex((other) => other.id === entry.id);
        if (first < index)
          report(kind, id, [field, index, 'id'], `Entry ${first + 1} of ${field} has the id "${entry.id}" too.`, 'Give each its own id.');
      });
    };
    for (const [id, check] of content.checks) once('checks', id, 'outcomes', check.outcomes);
    for (const [id, trait] of content.traits) once('traits', id, 'values', trait.values);
  },
};
