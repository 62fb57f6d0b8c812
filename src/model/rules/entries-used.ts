import { cautionsFor } from '../cautions.ts';
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

/** A caution that no work gets is a danger that was thought of and then left out. */
export const cautionsReached: Rule = {
  code: 'caution-reaches-none',
  severity: 'warning',
  wants: kinds,
  check: ({ content }, report) => {
    const reached = new Set(
      [
        ...content.checks.values(),
        ...[...content.causes.values()].map((cause) => cause.repair),
        ...content['set-ups'].values(),
        ...[...content.tools].map(([id, tool]) => ({ ...tool, tools: [id], setUps: [], steps: [tool.use] })),
      ].flatMap((work) => cautionsFor(content, work)),
    );
    for (const id of content.cautions.keys())
      if (!reached.has(id))
        report(
          'cautions',
          id,
          ['appliesTo'],
          'No check, repair, set-up or tool gets this caution.',
          'Widen "appliesTo", name it in "hazards" of such work, or delete the file.',
          {
            atKey: true,
          },
        );
  },
};
