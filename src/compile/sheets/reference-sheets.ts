/** Sheets of reference: terms, readiness monitors, sources. */
import type { PageKind } from '../address.ts';
import { type Catalogue, citations, codeMention, mentions } from '../catalogue.ts';
import { type EvidenceKind, evidenceMention } from '../evidence-page.ts';
import { duration } from '../figures.ts';
import { type Sheet, withContent } from './sheet.ts';

export function termSheet({ content }: Catalogue, id: string): Sheet {
  const file = content.terms.get(id)!;
  const seenFrom = [...content.terms].filter(([, term]) => term.see.includes(id)).map(([other]) => other);
  return {
    kind: 'terms',
    id,
    title: file.title,
    also: file.also,
    lead: file.means,
    families: [],
    file: `content/terms/${id}.yaml`,
    facts: [],
    sections: withContent([
      { id: 'see', title: 'See also', mentions: mentions(content, 'terms', [...new Set([...file.see, ...seenFrom])]), inline: true },
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}

export function monitorSheet({ content, links }: Catalogue, id: string): Sheet {
  const file = content.monitors.get(id)!;
  return {
    kind: 'monitors',
    id,
    title: file.title,
    also: [],
    lead: file.what,
    families: (links.familiesOfMonitor.get(id) ?? []).map((family) => content.families.get(family)!.title),
    file: `content/monitors/${id}.yaml`,
    facts: [
      { label: 'Runs', value: file.runs === 'continuous' ? 'all the time' : 'once a trip' },
      { label: 'Usual driving', value: duration(file.minutes) },
      ...(file.bit ? [{ label: 'Shown at', value: file.bit }] : []),
    ],
    sections: withContent([
      { id: 'before', title: 'Before it can run', bullets: file.before },
      { id: 'drive', title: 'A drive that usually lets it run', steps: file.drive },
      {
        id: 'families',
        title: 'Families that it judges',
        mentions: mentions(content, 'families', links.familiesOfMonitor.get(id) ?? []),
        inline: true,
      },
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}

const kinds = {
  law: 'law',
  standard: 'standard',
  handbook: 'handbook',
  paper: 'scientific paper',
  data: 'data',
  opinion: 'judgement',
} as const;
const known = {
  read: 'read in the source',
  'second-hand': 'read in a second source',
  memory: 'recalled, not seen',
  practice: 'a rule of the trade',
} as const;

export function sourceSheet(catalogue: Catalogue, id: string): Sheet {
  const { content } = catalogue;
  const file = content.sources.get(id)!;
  const using = (kind: PageKind | EvidenceKind) => [...content[kind]].filter(([, entry]) => citedIn(entry).has(id)).map(([used]) => used);
  const uses = (kind: PageKind) => mentions(content, kind, using(kind));
  const evidence = (kind: EvidenceKind) => using(kind).map((used) => evidenceMention(catalogue, kind, used));
  const codes = [...content.codes.values()].filter((group) => citedIn(group).has(id)).flatMap((group) => Object.keys(group.codes));
  return {
    kind: 'sources',
    id,
    title: file.title,
    also: [],
    lead: file.what,
    families: [],
    file: `content/sources/${id}.yaml`,
    facts: [
      { label: 'Kind', value: kinds[file.kind] },
      { label: 'How well it is known', value: known[file.read] },
      ...(file.publisher ? [{ label: 'Publisher', value: file.publisher }] : []),
      ...(file.edition ? [{ label: 'Edition', value: file.edition }] : []),
    ],
    sections: withContent([
      { id: 'families', title: 'Families', mentions: uses('families'), inline: true },
      { id: 'causes', title: 'Causes', mentions: uses('causes') },
      { id: 'checks', title: 'Checks', mentions: uses('checks') },
      { id: 'symptoms', title: 'Symptoms', mentions: uses('symptoms'), inline: true },
      { id: 'cautions', title: 'Cautions', mentions: uses('cautions'), inline: true },
      { id: 'conditions', title: 'Conditions', mentions: uses('conditions'), inline: true },
      { id: 'recent-work', title: 'Work done last', mentions: uses('recent-work'), inline: true },
      { id: 'scopes', title: 'What a fault reaches', mentions: evidence('scopes'), inline: true },
      { id: 'traits', title: 'What the car has', mentions: evidence('traits'), inline: true },
      { id: 'trim-signatures', title: 'Patterns of fuel trim', mentions: evidence('trim-signatures'), inline: true },
      { id: 'tools', title: 'Tools', mentions: uses('tools'), inline: true },
      { id: 'set-ups', title: 'Set-ups', mentions: uses('set-ups'), inline: true },
      { id: 'parts', title: 'Parts', mentions: uses('parts'), inline: true },
      { id: 'monitors', title: 'Readiness monitors', mentions: uses('monitors'), inline: true },
      { id: 'codes', title: 'Codes', codes: codes.sort().map((code) => codeMention(catalogue.knowledge, code)) },
      { id: 'terms', title: 'Terms', mentions: uses('terms'), inline: true },
    ]),
  };
}

/** Ids of the sources that a file names, for itself or for a part of it. */
function citedIn(value: unknown): ReadonlySet<string> {
  const found = new Set<string>();
  const visit = (inner: unknown): void => {
    if (typeof inner !== 'object' || inner === null) return;
    for (const [key, part] of Object.entries(inner))
      if (key === 'source' && typeof part === 'string') found.add(part.split(' ')[0]!);
      else visit(part);
  };
  visit(value);
  return found;
}
