/** Every id of every vocabulary with its title and everyday synonyms: what a case may name. */

import { freezeFrameFields, trimFields } from '../model/case-file.ts';
import type { Content } from '../model/schema/index.ts';

export interface VocabularyEntry {
  readonly id: string;
  readonly title: string;
  readonly synonyms: readonly string[];
}

type Listed = { readonly title: string; readonly also?: readonly string[] | undefined };

const entries = (files: ReadonlyMap<string, Listed>): VocabularyEntry[] =>
  [...files].sort(([a], [b]) => (a < b ? -1 : 1)).map(([id, file]) => ({ id, title: file.title, synonyms: file.also ?? [] }));

/** All vocabularies by the name under which a case uses them. */
export function vocabularyList(content: Content) {
  return {
    codes: [...content.codes.values()]
      .flatMap((group) => Object.entries(group.codes).map(([id, code]) => ({ id, title: code.title, family: group.family })))
      .sort((a, b) => (a.id < b.id ? -1 : 1)),
    families: entries(content.families),
    causes: entries(content.causes),
    checks: [...content.checks]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([id, check]) => ({
        id,
        title: check.title,
        synonyms: check.also,
        outcomes: check.outcomes.map((outcome) => ({ id: outcome.id, title: outcome.title })),
      })),
    symptoms: entries(content.symptoms),
    conditions: entries(content.conditions),
    recentWork: entries(content['recent-work']),
    parts: entries(content.parts),
    tools: entries(content.tools),
    setUps: entries(content['set-ups']),
    engine: [...content.traits]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([id, trait]) => ({
        id,
        title: trait.title,
        synonyms: trait.also,
        values: trait.values.map((value) => ({ id: value.id, title: value.title })),
      })),
    freezeFrame: freezeFrameFields,
    trims: trimFields,
  };
}
