/** Sheets of what work is done with: tools, set-ups, parts, cautions. */
import { type Catalogue, citations, mention, mentions } from '../catalogue.ts';
import { cautionView, cautionViews } from '../caution-view.ts';
import { money, moneyRange, percent } from '../figures.ts';
import type { Uses } from '../links.ts';
import { setUpWork } from '../work-view.ts';
import { type Section, type Sheet, withContent } from './sheet.ts';

const useSections = ({ content }: Catalogue, uses: Uses | undefined): readonly Section[] => [
  { id: 'checks', title: 'Checks', mentions: mentions(content, 'checks', uses?.checks ?? []) },
  { id: 'causes', title: 'Repairs', mentions: mentions(content, 'causes', uses?.causes ?? []) },
  { id: 'set-ups', title: 'Set-ups', mentions: mentions(content, 'set-ups', uses?.setUps ?? []) },
];

export function toolSheet(catalogue: Catalogue, id: string): Sheet {
  const { content, links } = catalogue;
  const file = content.tools.get(id)!;
  return {
    kind: 'tools',
    id,
    title: file.title,
    also: file.also,
    lead: file.what,
    families: [],
    file: `content/tools/${id}.yaml`,
    facts: [
      { label: 'Price', value: moneyRange(file.price) },
      ...(file.borrowMoney === undefined ? [] : [{ label: 'Borrowed or hired', value: money(file.borrowMoney) }]),
      { label: 'In most home tool boxes', value: file.owned ? 'yes' : 'no; the order counts what it costs to have it' },
    ],
    sections: withContent([
      { id: 'cautions', title: 'Before you use it', cautions: cautionViews(content, links.cautionsOfTool.get(id) ?? []) },
      { id: 'use', title: 'How to use it', paragraphs: [file.use] },
      ...useSections(catalogue, links.usesOfTool.get(id)),
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}

export function setUpSheet(catalogue: Catalogue, id: string): Sheet {
  const { content, links } = catalogue;
  const file = content['set-ups'].get(id)!;
  const work = setUpWork(catalogue, id, file);
  return {
    kind: 'set-ups',
    id,
    title: file.title,
    also: [],
    lead: file.what,
    families: [],
    file: `content/set-ups/${id}.yaml`,
    facts: work.facts,
    sections: withContent([
      { id: 'cautions', title: 'Before you start', cautions: work.cautions },
      { id: 'steps', title: 'Steps', steps: work.steps },
      { id: 'while-there', title: 'While you are in there', bullets: file.whileThere },
      ...useSections(catalogue, links.usesOfSetUp.get(id)),
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}

export function partSheet({ content, knowledge, links }: Catalogue, id: string): Sheet {
  const file = content.parts.get(id)!;
  return {
    kind: 'parts',
    id,
    title: file.title,
    also: file.also,
    lead: file.advice ?? 'Compare the new part with the old one before it is fitted.',
    families: [],
    file: `content/parts/${id}.yaml`,
    facts: [
      { label: 'Usual price, one piece', value: moneyRange(file.price) },
      { label: 'New one bad, wrong or wrongly fitted', value: percent(knowledge.parts[id]!.earlyFailure) },
      ...(file.oneTimeUse ? [{ label: 'Used once only', value: 'replaced whenever it is disturbed' }] : []),
      ...(file.work ? [{ label: 'Fitting it counts as', value: '', mentions: [mention(content, 'recent-work', file.work)] }] : []),
    ],
    sections: withContent([
      { id: 'causes', title: 'Causes and repairs that need it', mentions: mentions(content, 'causes', links.causesOfPart.get(id) ?? []) },
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}

export function cautionSheet(catalogue: Catalogue, id: string): Sheet {
  const { content, links } = catalogue;
  const file = content.cautions.get(id)!;
  return {
    kind: 'cautions',
    id,
    title: file.title,
    also: [],
    lead: 'The service information for the vehicle, local law and licensed practice go first.',
    families: [],
    file: `content/cautions/${id}.yaml`,
    facts: [],
    sections: withContent([
      { id: 'caution', title: 'The caution', cautions: [cautionView(content, id)] },
      {
        id: 'rule',
        title: 'Work that gets it by rule',
        bullets: [
          ...(file.appliesTo.engineStates.length > 0 ? [`Engine ${file.appliesTo.engineStates.join(' or ')}.`] : []),
          ...(file.appliesTo.words.length > 0 ? [`Steps that say: ${file.appliesTo.words.join(', ')}.`] : []),
        ],
        mentions: [
          ...mentions(content, 'tools', file.appliesTo.tools),
          ...mentions(content, 'set-ups', file.appliesTo.setUps),
          ...mentions(content, 'parts', file.appliesTo.parts),
        ],
        inline: true,
      },
      ...useSections(catalogue, links.usesOfCaution.get(id)),
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}
