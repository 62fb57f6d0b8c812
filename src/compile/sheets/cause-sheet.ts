/** The sheet of one cause: what it is, how to know it, how it is mended. */
import { type Catalogue, citations, codeMention, mention, mentions } from '../catalogue.ts';
import { evidenceMention } from '../evidence-page.ts';
import { percent, plain } from '../figures.ts';
import { repairWork } from '../work-view.ts';
import { type BarRow, type Sheet, withContent } from './sheet.ts';

const ageing = {
  'wears-out': 'more likely the further the car has run',
  steady: 'equally likely at any distance',
  'fails-early': 'mostly early in its life',
} as const;

export function causeSheet(catalogue: Catalogue, id: string): Sheet {
  const { content, knowledge, links } = catalogue;
  const file = content.causes.get(id)!;
  const facts = knowledge.causes[id]!;
  const families = links.familiesOfCause.get(id) ?? [];
  const bars = (kind: 'symptoms' | 'conditions', chances: Readonly<Record<string, number>>): readonly BarRow[] =>
    Object.entries(chances)
      .map(([key, chance]) => ({ item: mention(content, kind, key), chance }))
      .sort((a, b) => b.chance - a.chance || (a.item.title < b.item.title ? -1 : 1));
  const scopes = Object.entries(facts.scope).map(([scope, share]) =>
    evidenceMention(catalogue, 'scopes', scope, share < 1 ? percent(share) : undefined),
  );
  const needs = Object.entries(file.needs).map(([trait, values]) => {
    const known = content.traits.get(trait)?.values ?? [];
    const titles = values.map((value) => known.find((one) => one.id === value)?.title ?? value);
    return evidenceMention(catalogue, 'traits', trait, titles.join(' or '));
  });
  return {
    kind: 'causes',
    id,
    title: file.title,
    also: file.also,
    lead: file.what,
    families: families.map((family) => content.families.get(family)!.title),
    file: `content/causes/${id}.yaml`,
    facts: [
      { label: 'Reaches', value: '', mentions: scopes },
      { label: 'Age', value: ageing[file.ageing] },
      ...(needs.length > 0 ? [{ label: 'Only on', value: '', mentions: needs }] : []),
      ...(file.trims ? [{ label: 'Fuel trims', value: '', mentions: [evidenceMention(catalogue, 'trim-signatures', file.trims)] }] : []),
      ...(file.hidden > 0 ? [{ label: 'Away while the car stands', value: percent(file.hidden) }] : []),
      { label: 'The repair holds', value: percent(facts.repair.holds) },
    ],
    sections: withContent([
      {
        id: 'families',
        title: 'In which trees it stands',
        bars: families
          .map((family) => ({ item: mention(content, 'families', family), chance: knowledge.families[family]!.shares[id] ?? 0 }))
          .sort((a, b) => b.chance - a.chance),
      },
      {
        id: 'tell-apart',
        title: 'How to tell it from what looks alike',
        explained: file.tellApart.map(({ from, how }) => ({ item: mention(content, 'causes', from), how })),
      },
      { id: 'checks', title: 'Checks that tell it', mentions: mentions(content, 'checks', links.checksOfCause.get(id) ?? []) },
      { id: 'symptoms', title: 'What the driver notices', bars: bars('symptoms', facts.shows) },
      { id: 'conditions', title: 'When it shows', bars: bars('conditions', facts.conditions) },
      {
        id: 'recent-work',
        title: 'After which work it is likelier',
        mentions: Object.entries(file.recentWork).map(([work, factor]) =>
          mention(content, 'recent-work', work, `${plain(factor, 1)} times as likely`),
        ),
      },
      { id: 'repair', title: file.repair.title, repair: repairWork(catalogue, id, file.repair) },
      {
        id: 'also-fixes',
        title: 'What this repair mends besides',
        bars: Object.entries(facts.repair.alsoFixes).map(([other, chance]) => ({ item: mention(content, 'causes', other), chance })),
      },
      { id: 'fixed-by', title: 'Other repairs that remove it', mentions: mentions(content, 'causes', links.causesFixedBy.get(id) ?? []) },
      { id: 'parts', title: 'Parts whose replacement removes it', mentions: mentions(content, 'parts', file.parts), inline: true },
      {
        id: 'codes',
        title: 'Codes in whose trees it stands',
        codes: families
          .flatMap((family) => links.codesOfFamily.get(family) ?? [])
          .sort()
          .map((code) => codeMention(knowledge, code)),
      },
      {
        id: 'sources',
        title: 'Sources',
        citations: citations(content, [file.source, file.repair.source, ...file.repair.torque.map((line) => line.source)]),
      },
    ]),
  };
}
