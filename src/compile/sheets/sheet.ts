/** The form that every plain page is filled in on: a head with boxes, then sections of a few kinds. */
import type { PageKind } from '../address.ts';
import type { Citation, Mention } from '../catalogue.ts';
import type { CautionView } from '../caution-view.ts';
import type { OutcomeView } from '../reading-view.ts';
import type { TreeNode } from '../tree-view.ts';
import type { Fact, RepairView } from '../work-view.ts';

export interface BarRow {
  readonly item: Mention;
  readonly chance: number;
}

export interface LikelihoodRow {
  /** Null: the row for every other cause. */
  readonly cause: Mention | null;
  readonly chances: readonly number[];
}

export interface Section {
  readonly id: string;
  readonly title: string;
  readonly paragraphs?: readonly string[];
  /** Numbered work steps. */
  readonly steps?: readonly string[];
  readonly bullets?: readonly string[];
  readonly mentions?: readonly Mention[];
  readonly inline?: boolean;
  /** Things with an explanation each. */
  readonly explained?: readonly { readonly item: Mention; readonly how: string }[];
  readonly bars?: readonly BarRow[];
  readonly codes?: readonly Mention[];
  readonly cautions?: readonly CautionView[];
  readonly outcomes?: readonly OutcomeView[];
  readonly reading?: string;
  readonly likelihoods?: { readonly outcomes: readonly string[]; readonly rows: readonly LikelihoodRow[] };
  readonly repair?: RepairView;
  readonly tree?: readonly TreeNode[];
  readonly citations?: readonly Citation[];
}

export interface Sheet {
  readonly kind: PageKind;
  readonly id: string;
  readonly title: string;
  readonly also: readonly string[];
  readonly facts: readonly Fact[];
  readonly lead: string;
  /** Titles of families, for the search filter. */
  readonly families: readonly string[];
  readonly sections: readonly Section[];
  readonly file: string;
}

/** Sections that say something; the others are left out. */
export const withContent = (sections: readonly (Section | null)[]): readonly Section[] =>
  sections.filter((section): section is Section => {
    if (!section) return false;
    const { id: _id, title: _title, inline: _inline, ...rest } = section;
    return Object.values(rest).some((value) =>
      Array.isArray(value) || typeof value === 'string' ? value.length > 0 : value !== undefined,
    );
  });

export const kindTitles: Readonly<Record<PageKind, { readonly one: string; readonly many: string; readonly about: string }>> = {
  families: { one: 'Fault family', many: 'Fault families', about: 'Each family has one cause tree and serves several codes.' },
  causes: { one: 'Cause', many: 'Causes and repairs', about: 'What fails, how to know it, and how it is mended.' },
  checks: { one: 'Check', many: 'Checks', about: 'What to look at or measure, what it costs, and what each result means.' },
  symptoms: { one: 'Symptom', many: 'Symptoms', about: 'What the driver notices, in everyday words.' },
  conditions: {
    one: 'Condition',
    many: 'Conditions',
    about: 'When a fault shows: wet, hot, uphill. Evidence, and a hint how to make it appear.',
  },
  tools: { one: 'Tool', many: 'Tools', about: 'What the checks and repairs need, and what it costs to have it.' },
  cautions: { one: 'Caution', many: 'Cautions', about: 'What hurts people or breaks things, and how to avoid it. Pages get them by rule.' },
  'set-ups': { one: 'Set-up', many: 'Set-ups', about: 'Access work that several checks share: paid once in a job.' },
  parts: { one: 'Part', many: 'Parts', about: 'What one buys, what it usually costs, and how often a new one is bad.' },
  terms: { one: 'Term', many: 'Terms', about: 'Each technical term of the trade, explained once.' },
  monitors: {
    one: 'Readiness monitor',
    many: 'Readiness monitors',
    about: 'Self-tests that must run after a repair, and a drive that lets each run.',
  },
  sources: { one: 'Source', many: 'Sources', about: 'Where the numbers come from, and how well each source is known.' },
  'recent-work': {
    one: 'Work done last',
    many: 'Work done last',
    about: 'What was touched last is the first question: such work tends to leave something behind.',
  },
};
