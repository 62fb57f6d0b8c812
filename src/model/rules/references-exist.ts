import { didYouMean } from '../nearest.ts';
import { referencesIn } from '../references.ts';
import { kinds, schemas } from '../schema/index.ts';
import type { Rule } from './rule.ts';

/** Every reference names a file; a hazard without a caution file has a code of its own. */
export const referencesExist: Rule = {
  code: 'unknown-id',
  severity: 'error',
  check: ({ content, knownIds }, report) => {
    const idsOf = new Map(kinds.map((kind) => [kind as string, knownIds(kind)]));
    const setOf = new Map([...idsOf].map(([kind, ids]) => [kind, new Set(ids)]));
    for (const kind of kinds) {
      for (const [id, file] of content[kind]) {
        for (const reference of referencesIn(schemas[kind], file)) {
          if (setOf.get(reference.kind)?.has(reference.id)) continue;
          const near = didYouMean(reference.id, idsOf.get(reference.kind) ?? []);
          const hazard = reference.kind === 'cautions';
          report(
            kind,
            id,
            reference.path,
            hazard
              ? `The hazard "${reference.id}" has no caution: content/cautions/${reference.id}.yaml does not exist.`
              : `"${reference.id}" is not a file in content/${reference.kind}/.`,
            hazard ? `Write the caution, or name one that exists.${near}` : `Correct the id, or write that file.${near}`,
            { atKey: reference.isKey, code: hazard ? 'hazard-without-caution' : 'unknown-id' },
          );
        }
      }
    }
  },
};
