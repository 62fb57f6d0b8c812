import { referencesIn } from '../references.ts';
import { type Kind, kinds, schemas } from '../schema/index.ts';
import type { Rule } from './rule.ts';

const shared: readonly Kind[] = ['tools', 'set-ups', 'parts', 'scopes', 'trim-signatures', 'monitors', 'sources'];

/** An entry of a shared vocabulary is there for something that refers to it. */
export const entriesUsed: Rule = {
  code: 'unused-entry',
  severity: 'warning',
  wants: kinds,
  check: ({ content }, report) => {
    const used = new Set(
      kinds.flatMap((kind) =>
        [...content[kind].values()].flatMap((file) =>
          referencesIn(schemas[kind], file).map((reference) => `${reference.kind}/${reference.id}`),
        ),
      ),
    );
    for (const kind of shared)
      for (const id of content[kind].keys())
        if (!used.has(`${kind}/${id}`)) report(kind, id, ['title'], 'Nothing refers to this entry.', 'Use it, or delete the file.');
  },
};
