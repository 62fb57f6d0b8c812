/** A calculator's page: its sheet with every id turned into a link. An id that the content does not have stops the build. */
import type { Sheet, SheetSource, WorkedTable } from '../../bench/sheets/sheet.ts';
import type { PageKind } from '../../compile/address.ts';
import { type Catalogue, type Citation, citation, type Mention, mention } from '../../compile/catalogue.ts';

export interface SourceView {
  readonly text: string;
  readonly href: string | null;
  readonly known: Citation['known'];
  readonly for: string;
}

export interface BenchPage {
  readonly worked: readonly WorkedTable[];
  readonly sources: readonly SourceView[];
  readonly checks: readonly Mention[];
  readonly families: readonly Mention[];
  readonly terms: readonly Mention[];
}

export function benchPage(sheet: Sheet, catalogue: Catalogue): BenchPage {
  const { content, knowledge } = catalogue;
  const each = (kind: PageKind, ids: readonly string[]) =>
    ids.map((id) => {
      if (!content[kind].has(id)) throw new Error(`/bench/${sheet.id}/ names ${kind}/${id}, which is not in the content.`);
      return mention(content, kind, id);
    });
  return {
    worked: sheet.worked(knowledge),
    sources: sheet.sources.map((source) => sourceView(source, sheet.id, catalogue)),
    checks: each('checks', sheet.checks),
    families: each('families', sheet.families),
    terms: each('terms', sheet.terms),
  };
}

function sourceView(source: SheetSource, id: string, { content }: Catalogue): SourceView {
  if ('text' in source) return { text: source.text, href: null, known: source.known, for: source.for };
  const found = citation(content, source.reference);
  if (!content.sources.has(found.source.id)) throw new Error(`/bench/${id}/ cites ${source.reference}, which is not in the content.`);
  return {
    text: found.place ? `${found.source.title}, ${found.place}` : found.source.title,
    href: found.source.href,
    known: found.known,
    for: source.for,
  };
}
