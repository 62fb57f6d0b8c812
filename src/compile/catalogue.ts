/** Everything that page builders read: content, knowledge, links backwards, and the term cutter. Built once. */
import type { Knowledge } from '../engine/knowledge.ts';
import type { Content } from '../model/schema/index.ts';
import { address, codeAddress, type PageKind } from './address.ts';
import { type Links, linksOf } from './links.ts';
import { type ProseCutter, proseCutter } from './prose.ts';

export interface Catalogue {
  readonly content: Content;
  readonly knowledge: Knowledge;
  readonly links: Links;
  readonly cut: ProseCutter;
}

/** A thing by name, with where it is explained and at most one figure about it. */
export interface Mention {
  readonly id: string;
  readonly title: string;
  readonly href: string;
  readonly note?: string;
}

export const catalogueOf = (content: Content, knowledge: Knowledge): Catalogue => ({
  content,
  knowledge,
  links: linksOf(content),
  cut: proseCutter(content.terms),
});

/** A mention of a file; the id stands for the title when there is no such file. */
export const mention = (content: Content, kind: PageKind, id: string, note?: string): Mention => ({
  id,
  title: content[kind].get(id)?.title ?? id,
  href: address(kind, id),
  ...(note === undefined ? {} : { note }),
});

/** Mentions by rising title. */
export const mentions = (content: Content, kind: PageKind, ids: readonly string[]): readonly Mention[] =>
  ids.map((id) => mention(content, kind, id)).sort((a, b) => (a.title < b.title ? -1 : 1));

export const codeMention = (knowledge: Knowledge, code: string): Mention => ({
  id: code,
  title: `${code} ${knowledge.codes[code]?.title ?? ''}`.trim(),
  href: codeAddress(code),
});

/** A reference such as "cfr-86-1806-17 (b)(4)": the source, the place in it, and how well it is known. */
export interface Citation {
  readonly source: Mention;
  readonly place: string | null;
  readonly known: 'read' | 'second-hand' | 'memory' | 'practice';
}

export function citation(content: Content, reference: string): Citation {
  const space = reference.indexOf(' ');
  const id = space < 0 ? reference : reference.slice(0, space);
  return {
    source: mention(content, 'sources', id),
    place: space < 0 ? null : reference.slice(space + 1),
    known: content.sources.get(id)?.read ?? 'memory',
  };
}

/** Citations without repeats, in the order in which they are first met. */
export function citations(content: Content, references: readonly string[]): readonly Citation[] {
  return [...new Set(references)].map((reference) => citation(content, reference));
}
