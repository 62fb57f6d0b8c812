/** The sheet of one fault family: its cause tree, its codes, the checks that tell its causes apart. */
import { type Catalogue, citations, codeMention, mentions } from '../catalogue.ts';
import { count, duration, money, percent } from '../figures.ts';
import { treeView } from '../tree-view.ts';
import { type Sheet, withContent } from './sheet.ts';

export function familySheet({ content, knowledge, links }: Catalogue, id: string): Sheet {
  const file = content.families.get(id)!;
  const facts = knowledge.families[id]!;
  const codes = links.codesOfFamily.get(id) ?? [];
  const checks = [...links.familiesOfCheck].filter(([, families]) => families.includes(id)).map(([check]) => check);
  return {
    kind: 'families',
    id,
    title: file.title,
    also: [],
    lead: file.what,
    families: [file.title],
    file: `content/families/${id}.yaml`,
    facts: [
      { label: 'Causes', value: count(Object.keys(facts.shares).length, 'cause') },
      { label: 'Checks that tell them apart', value: count(checks.length, 'check') },
      { label: 'Cause is none of these', value: percent(facts.remainder) },
      { label: 'Handing over costs about', value: `${money(file.handOver.money)} and ${duration(file.handOver.attendedMinutes)}` },
    ],
    sections: withContent([
      { id: 'first-look', title: 'Before anything is bought or taken apart', paragraphs: [file.firstLook] },
      { id: 'driving', title: 'May I drive?', paragraphs: [file.driving] },
      { id: 'codes', title: 'Codes', codes: codes.map((code) => codeMention(knowledge, code)) },
      {
        id: 'tree',
        title: 'What can cause it',
        tree: treeView(content, file, (cause) => facts.shares[cause] ?? 0),
        paragraphs: [file.formed],
      },
      { id: 'checks', title: 'Checks that tell its causes apart', mentions: mentions(content, 'checks', checks) },
      { id: 'hand-over', title: 'When to hand over', paragraphs: [file.handOver.why] },
      { id: 'monitors', title: 'What must run after the repair', mentions: mentions(content, 'monitors', file.monitors), inline: true },
      { id: 'related', title: 'Families beside this one', mentions: mentions(content, 'families', file.related), inline: true },
      { id: 'sources', title: 'Sources', citations: citations(content, [file.source]) },
    ]),
  };
}
