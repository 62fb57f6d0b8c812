/** A sheet for each kind of page, and the lists of each kind. */
import type { PageKind } from '../address.ts';
import { type Catalogue, type Mention, mention } from '../catalogue.ts';
import { count, duration, moneyRange } from '../figures.ts';
import { causeSheet } from './cause-sheet.ts';
import { checkSheet } from './check-sheet.ts';
import { conditionSheet, recentWorkSheet, symptomSheet } from './evidence-sheets.ts';
import { familySheet } from './family-sheet.ts';
import { monitorSheet, sourceSheet, termSheet } from './reference-sheets.ts';
import type { Sheet } from './sheet.ts';
import { cautionSheet, partSheet, setUpSheet, toolSheet } from './work-sheets.ts';

const builders: Readonly<Record<PageKind, (catalogue: Catalogue, id: string) => Sheet>> = {
  families: familySheet,
  causes: causeSheet,
  checks: checkSheet,
  symptoms: symptomSheet,
  conditions: conditionSheet,
  tools: toolSheet,
  cautions: cautionSheet,
  'set-ups': setUpSheet,
  parts: partSheet,
  terms: termSheet,
  monitors: monitorSheet,
  sources: sourceSheet,
  'recent-work': recentWorkSheet,
};

export const sheetOf = (catalogue: Catalogue, kind: PageKind, id: string): Sheet => builders[kind](catalogue, id);

export interface ListGroup {
  readonly title: string | null;
  readonly entries: readonly (Mention & { readonly summary: string | null })[];
}

const symptomGroups: Readonly<Record<string, string>> = {
  lamp: 'Lamp',
  starting: 'Starting',
  idle: 'Standing and idling',
  pulling: 'Pulling away and accelerating',
  cruising: 'Steady driving',
  noise: 'Noises',
  'smell-and-smoke': 'Smell and smoke',
  fuel: 'Fuel',
  temperature: 'Temperature',
  electrical: 'Electrical',
  inspection: 'Inspection',
};

/** Everything of one kind, grouped where the content groups it. */
export function listOf({ content, knowledge, links }: Catalogue, kind: PageKind): readonly ListGroup[] {
  const entry = (id: string, note?: string, summary: string | null = null) => ({ ...mention(content, kind, id, note), summary });
  const byTitle = <Entry extends { readonly title: string }>(entries: readonly Entry[]) =>
    [...entries].sort((a, b) => (a.title < b.title ? -1 : 1));
  const ids = [...content[kind].keys()];
  if (kind === 'symptoms')
    return Object.entries(symptomGroups).map(([group, title]) => ({
      title,
      entries: byTitle(
        [...content.symptoms]
          .filter(([, file]) => file.group === group)
          .map(([id, file]) => entry(id, undefined, file.also.slice(0, 3).join(', ') || null)),
      ),
    }));
  if (kind === 'cautions')
    return (['DANGER', 'WARNING', 'CAUTION', 'NOTICE'] as const).map((signal) => ({
      title: signal,
      entries: byTitle([...content.cautions].filter(([, file]) => file.signal === signal).map(([id]) => entry(id))),
    }));
  const notes: Partial<Record<PageKind, (id: string) => readonly [string?, (string | null)?]>> = {
    families: (id) => [count(links.codesOfFamily.get(id)?.length ?? 0, 'code'), content.families.get(id)!.summary],
    checks: (id) => [duration(content.checks.get(id)!.attendedMinutes), content.checks.get(id)!.asks],
    causes: (id) => [undefined, content.causes.get(id)!.repair.title],
    tools: (id) => [moneyRange(content.tools.get(id)!.price)],
    parts: (id) => [moneyRange(knowledge.parts[id]!.price)],
    'set-ups': (id) => [duration(content['set-ups'].get(id)!.attendedMinutes)],
    monitors: (id) => [duration(content.monitors.get(id)!.minutes)],
  };
  return [{ title: null, entries: byTitle(ids.map((id) => entry(id, ...(notes[kind]?.(id) ?? [])))) }];
}
