/** The sheet of one check: what it asks, what it costs, how it is done, what each result means and for which causes. */
import { type Catalogue, citations, codeMention, mention, mentions } from '../catalogue.ts';
import { outcomeViews, unitName } from '../reading-view.ts';
import { checkWork } from '../work-view.ts';
import { type Sheet, withContent } from './sheet.ts';

export function checkSheet(catalogue: Catalogue, id: string): Sheet {
  const { content, knowledge, links } = catalogue;
  const file = content.checks.get(id)!;
  const facts = knowledge.checks[id]!;
  const families = links.familiesOfCheck.get(id) ?? [];
  const work = checkWork(catalogue, id, file);
  return {
    kind: 'checks',
    id,
    title: file.title,
    also: file.also,
    lead: file.asks,
    families: families.map((family) => content.families.get(family)!.title),
    file: `content/checks/${id}.yaml`,
    facts: [
      ...work.facts,
      ...(file.provokes ? [{ label: 'Intermittent faults', value: 'can make one appear' }] : []),
      ...(file.repeats ? [{ label: 'Doing it again', value: 'gives a new result' }] : []),
    ],
    sections: withContent([
      work.cautions.length > 0 ? { id: 'cautions', title: 'Before you start', cautions: work.cautions } : null,
      { id: 'steps', title: 'Steps', steps: work.steps },
      file.reading
        ? {
            id: 'reading',
            title: 'The reading',
            reading: `${file.reading.what}${unitName(file.reading.unit) ? ` in ${unitName(file.reading.unit)}` : ''}: ${file.reading.at}`,
            paragraphs: file.reading.maker ? [file.reading.maker] : [],
            citations: citations(content, [file.reading.source]),
          }
        : null,
      { id: 'outcomes', title: 'What you find', outcomes: outcomeViews(file) },
      { id: 'why', title: 'Why it can tell', paragraphs: [file.why] },
      { id: 'trap', title: 'What makes it lie', paragraphs: [file.trap] },
      {
        id: 'causes',
        title: 'Causes that it separates',
        paragraphs: [file.likelihoodReason],
        likelihoods: {
          outcomes: facts.outcomes.map((outcome) => outcome.title),
          rows: [
            ...Object.entries(facts.likelihood)
              .map(([cause, chances]) => ({ cause: mention(content, 'causes', cause), chances }))
              .sort((a, b) => a.chances[0]! - b.chances[0]! || (a.cause.title < b.cause.title ? -1 : 1)),
            { cause: null, chances: facts.otherwise },
          ],
        },
      },
      { id: 'after', title: 'Checks that wait for this one', mentions: mentions(content, 'checks', links.checksAfterCheck.get(id) ?? []) },
      { id: 'families', title: 'Families that it serves', mentions: mentions(content, 'families', families), inline: true },
      {
        id: 'codes',
        title: 'Codes that it serves',
        codes: families
          .flatMap((family) => links.codesOfFamily.get(family) ?? [])
          .sort()
          .map((code) => codeMention(knowledge, code)),
      },
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}
