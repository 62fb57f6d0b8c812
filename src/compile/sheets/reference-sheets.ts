/** Sheets of reference: terms, readiness monitors, sources. */
import { type Catalogue, citations, type Mention, mention, mentions } from '../catalogue.ts';
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
  const uses = (
    kind: 'causes' | 'checks' | 'families' | 'symptoms' | 'cautions' | 'monitors' | 'terms' | 'parts' | 'tools',
  ): readonly Mention[] =>
    [...content[kind]]
      .filter(([, entry]) => entry.source.split(' ')[0] === id)
      .map(([used]) => mention(content, kind, used))
      .sort((a, b) => (a.title < b.title ? -1 : 1));
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
      { id: 'monitors', title: 'Readiness monitors', mentions: uses('monitors'), inline: true },
      { id: 'terms', title: 'Terms', mentions: uses('terms'), inline: true },
    ]),
  };
}
