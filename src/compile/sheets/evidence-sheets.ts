/** Sheets of what is noticed or known about a car: symptoms, conditions, the work done last. */
import { belief } from '../../engine/belief/index.ts';
import type { Case } from '../../engine/case.ts';
import { type Catalogue, citations, codeMention, mention, mentions } from '../catalogue.ts';
import { drivingTitles } from '../driving.ts';
import { percent, plain } from '../figures.ts';
import { type BarRow, type Sheet, withContent } from './sheet.ts';

/** Families and likeliest causes when nothing but `situation` is known. */
function outlook(
  { content, knowledge }: Catalogue,
  situation: Case,
): { readonly causes: readonly BarRow[]; readonly families: readonly BarRow[] } {
  const causes = belief(situation, knowledge).causes.filter(({ id }) => id !== null) as { id: string; probability: number }[];
  const chances = new Map(causes.map(({ id, probability }) => [id, probability]));
  const everyFamily = Object.values(knowledge.families);
  // A cause of several families counts for each by how common the family and how large its share there is.
  const inAll = new Map<string, number>();
  for (const { commonness, shares } of everyFamily)
    for (const [id, share] of Object.entries(shares)) inAll.set(id, (inAll.get(id) ?? 0) + commonness * share);
  const weights = everyFamily.map(({ id: family, commonness, shares }) => ({
    item: mention(content, 'families', family),
    chance: Object.entries(shares).reduce((total, [id, share]) => {
      const all = inAll.get(id)!;
      return all > 0 ? total + ((chances.get(id) ?? 0) * commonness * share) / all : total;
    }, 0),
  }));
  return {
    causes: causes.slice(0, 15).map(({ id, probability }) => ({ item: mention(content, 'causes', id), chance: probability })),
    families: weights
      .sort((a, b) => b.chance - a.chance || (a.item.title < b.item.title ? -1 : 1))
      .slice(0, 6)
      .filter(({ chance }) => chance >= 0.01),
  };
}

export function symptomSheet(catalogue: Catalogue, id: string): Sheet {
  const { content, knowledge, links } = catalogue;
  const file = content.symptoms.get(id)!;
  const seen = outlook(catalogue, { symptoms: { [id]: 'present' } });
  const families = seen.families.map(({ item }) => item.id);
  const rows = (links.causesOfSymptom.get(id) ?? [])
    .map((cause) => ({ item: mention(content, 'causes', cause), chance: knowledge.causes[cause]!.shows[id]! }))
    .sort((a, b) => b.chance - a.chance || (a.item.title < b.item.title ? -1 : 1));
  return {
    kind: 'symptoms',
    id,
    title: file.title,
    also: file.also,
    lead: file.asks,
    families: families.map((family) => content.families.get(family)!.title),
    file: `content/symptoms/${id}.yaml`,
    facts: [
      { label: 'May I drive?', value: drivingTitles[file.driving] },
      { label: 'Shown by cars with other faults', value: percent(knowledge.symptoms[id]!.otherwise) },
    ],
    sections: withContent([
      { id: 'driving', title: 'May I drive?', paragraphs: [file.drivingWhy] },
      { id: 'means', title: 'What it tells', paragraphs: [file.means] },
      {
        id: 'families',
        title: 'Fault families behind it',
        paragraphs: ['With this symptom and nothing else known, codes included.'],
        bars: seen.families,
      },
      { id: 'likely', title: 'Likeliest causes', bars: seen.causes },
      { id: 'causes', title: 'Causes that show it, by how often they do', bars: rows },
      {
        id: 'codes',
        title: 'Codes of those families',
        codes: families
          .slice(0, 3)
          .flatMap((family) => links.codesOfFamily.get(family) ?? [])
          .sort()
          .map((code) => codeMention(knowledge, code)),
      },
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}

const freezeFrameWords = {
  engineSpeedRpm: ['engine speed', 'rpm'],
  loadPercent: ['load', '%'],
  coolantCelsius: ['coolant', '°C'],
  intakeAirCelsius: ['intake air', '°C'],
  vehicleSpeedKmh: ['road speed', 'km/h'],
  manifoldKpa: ['manifold pressure', 'kPa'],
  airFlowGramsPerSecond: ['air flow', 'g/s'],
  throttlePercent: ['throttle', '%'],
} as const;

export function conditionSheet(catalogue: Catalogue, id: string): Sheet {
  const { content, knowledge, links } = catalogue;
  const file = content.conditions.get(id)!;
  const bounds = Object.entries(file.freezeFrame).map(([key, range]) => {
    const [words, unit] = freezeFrameWords[key as keyof typeof file.freezeFrame];
    const bound = (word: string, value: number | undefined) => (value === undefined ? '' : ` ${word} ${plain(value)}\u00a0${unit}`);
    return `${words}${bound('above', range?.above)}${bound('below', range?.below)}`;
  });
  return {
    kind: 'conditions',
    id,
    title: file.title,
    also: file.also,
    lead: file.asks,
    families: [],
    file: `content/conditions/${id}.yaml`,
    facts: bounds.length > 0 ? [{ label: 'Freeze frame says so when', value: bounds.join('; ') }] : [],
    sections: withContent([
      { id: 'means', title: 'What it tells', paragraphs: [file.means] },
      {
        id: 'causes',
        title: 'Causes that show under it',
        bars: (links.causesOfCondition.get(id) ?? [])
          .map((cause) => ({ item: mention(content, 'causes', cause), chance: knowledge.causes[cause]!.conditions[id]! }))
          .sort((a, b) => b.chance - a.chance || (a.item.title < b.item.title ? -1 : 1)),
      },
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}

export function recentWorkSheet({ content, links }: Catalogue, id: string): Sheet {
  const file = content['recent-work'].get(id)!;
  const causes = (links.causesOfRecentWork.get(id) ?? [])
    .map((cause) => ({ cause, factor: content.causes.get(cause)!.recentWork[id]! }))
    .sort((a, b) => b.factor - a.factor || (a.cause < b.cause ? -1 : 1));
  return {
    kind: 'recent-work',
    id,
    title: file.title,
    also: file.also,
    lead: file.asks,
    families: [],
    file: `content/recent-work/${id}.yaml`,
    facts: [],
    sections: withContent([
      { id: 'leaves', title: 'What such work leaves behind', paragraphs: [file.leaves] },
      {
        id: 'causes',
        title: 'Causes that are likelier after it',
        mentions: causes.map(({ cause, factor }) => mention(content, 'causes', cause, `${plain(factor, 1)} times as likely`)),
      },
      {
        id: 'parts',
        title: 'Parts whose fitting is such work',
        mentions: mentions(content, 'parts', links.partsOfRecentWork.get(id) ?? []),
        inline: true,
      },
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}
