/** How a car's signs count: what faults reach, what cars have, how fuel trims look; with the numbers and their sources. */
import { type Catalogue, type Citation, citation, type Mention, mentions } from './catalogue.ts';
import { percent, plain } from './figures.ts';
import type { Fact } from './work-view.ts';

/** Kinds of content that are shown together on one page. */
export type EvidenceKind = 'scopes' | 'traits' | 'trim-signatures';

export interface EvidenceEntry {
  /** Id on the page. */
  readonly anchor: string;
  readonly title: string;
  readonly also: readonly string[];
  /** The question of the job page, where there is one. */
  readonly asks: string | null;
  readonly what: string;
  readonly facts: readonly Fact[];
  /** Values with how to tell each. */
  readonly values: readonly { readonly title: string; readonly chance: number; readonly look: string; readonly note: string | null }[];
  readonly causes: readonly Mention[];
  readonly citation: Citation;
}

export interface EvidenceGroup {
  readonly id: EvidenceKind;
  readonly title: string;
  readonly lead: string;
  readonly entries: readonly EvidenceEntry[];
}

const anchorOf = (kind: EvidenceKind, id: string): string => `${kind}-${id}`;

/** A scope, a trait or a trim signature by name, with its place on the page. */
export const evidenceMention = ({ content }: Pick<Catalogue, 'content'>, kind: EvidenceKind, id: string, note?: string): Mention => ({
  id,
  title: content[kind].get(id)?.title ?? id,
  href: `/evidence/#${anchorOf(kind, id)}`,
  ...(note === undefined ? {} : { note }),
});

const cylinderTitles: Readonly<Record<string, string>> = {
  single: 'One cylinder alone',
  'companion-pair': 'Two that share a coil',
  neighbours: 'Two neighbours',
  'one-bank': 'One bank',
  several: 'Several',
  random: 'No one cylinder',
};
const ageingTitles: Readonly<Record<string, string>> = {
  'wears-out': 'what wears out',
  steady: 'what fails at any age',
  'fails-early': 'what fails early',
};

export function evidencePage(catalogue: Catalogue): readonly EvidenceGroup[] {
  return [
    {
      id: 'scopes',
      title: 'What a fault reaches',
      lead: 'Each cause reaches one cylinder, a pair, a bank or the whole engine. So the set of cylinders and banks with a code is evidence: these are the chances of each set.',
      entries: scopeEntries(catalogue),
    },
    {
      id: 'traits',
      title: 'What the car has',
      lead: 'Some causes and checks exist only on cars of one kind. What is not known of a car is taken as it is among older petrol cars.',
      entries: traitEntries(catalogue),
    },
    {
      id: 'trim-signatures',
      title: 'Patterns of fuel trim',
      lead: 'Short and long term added, warm, at idle and at 2,500 rpm. Each pattern is a mean and a spread (one standard deviation).',
      entries: trimEntries(catalogue),
    },
  ];
}

const widest = (scope: Readonly<Record<string, number>>): string | undefined => Object.entries(scope).sort(([, a], [, b]) => b - a)[0]?.[0];

const scopeEntries = ({ content, knowledge }: Catalogue): readonly EvidenceEntry[] =>
  [...content.scopes].map(([id, file]) => {
    const facts = knowledge.scopes[id]!;
    return {
      anchor: anchorOf('scopes', id),
      title: file.title,
      also: [],
      asks: null,
      what: file.what,
      facts: [
        ...Object.entries(facts.cylinderPatterns).map(([pattern, chance]) => ({
          label: cylinderTitles[pattern] ?? pattern,
          value: percent(chance),
        })),
        { label: 'A code on one bank only', value: percent(facts.bankPatterns['one-bank'] ?? 0) },
      ],
      values: [],
      causes: mentions(
        content,
        'causes',
        Object.values(knowledge.causes)
          .filter(({ scope }) => widest(scope) === id)
          .map((cause) => cause.id),
      ),
      citation: citation(content, file.source),
    };
  });

const traitEntries = ({ content, knowledge }: Catalogue): readonly EvidenceEntry[] =>
  [...content.traits].map(([id, file]) => ({
    anchor: anchorOf('traits', id),
    title: file.title,
    also: file.also,
    asks: file.asks,
    what: file.what,
    facts: [],
    values: file.values.map((value) => {
      const factors = Object.entries(knowledge.traits[id]!.ageing[value.id] ?? {});
      return {
        title: value.title,
        chance: knowledge.traits[id]!.values[value.id] ?? 0,
        look: value.look ?? '',
        note:
          factors.length > 0 ? factors.map(([ageing, factor]) => `${ageingTitles[ageing] ?? ageing} × ${plain(factor)}`).join(', ') : null,
      };
    }),
    causes: mentions(
      content,
      'causes',
      Object.values(knowledge.causes)
        .filter(({ needs }) => Object.hasOwn(needs, id))
        .map((cause) => cause.id),
    ),
    citation: citation(content, file.source),
  }));

const signed = (value: number): string => `${value > 0 ? '+' : value < 0 ? '−' : ''}${plain(Math.abs(value), 1)}\u00a0%`;
const spread = ({ meanPercent, sdPercent }: { readonly meanPercent: number; readonly sdPercent: number }): string =>
  `${signed(meanPercent)} ± ${plain(sdPercent, 1)}\u00a0%`;

const trimEntries = ({ content, knowledge }: Catalogue): readonly EvidenceEntry[] =>
  [...content['trim-signatures']].map(([id, file]) => ({
    anchor: anchorOf('trim-signatures', id),
    title: file.title,
    also: [],
    asks: null,
    what: file.what,
    facts: [
      { label: 'Total at warm idle', value: spread(file.atIdle) },
      { label: 'Change to 2,500 rpm', value: spread(file.change) },
    ],
    values: [],
    causes: mentions(
      content,
      'causes',
      Object.values(knowledge.causes)
        .filter(({ trims }) => trims === id)
        .map((cause) => cause.id),
    ),
    citation: citation(content, file.source),
  }));
