/** Which cautions a piece of work gets. By rule, so that no page can lack one that its tools, wording or access bring. */
import type { Content } from './schema/index.ts';
import type { CautionFile } from './schema/vocabulary.ts';

/** A check, a repair or a set-up, as far as its hazards go: all three files fit as they are. */
export interface HazardousWork {
  readonly hazards: readonly string[];
  readonly tools: readonly string[];
  readonly setUps: readonly string[];
  readonly steps: readonly string[];
  readonly engineState?: 'any' | 'cold' | 'warm' | 'running';
  readonly parts?: readonly { readonly part: string }[];
}

/** ANSI Z535.6, the gravest first. */
export const signalOrder: readonly CautionFile['signal'][] = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'];

/**
 * Ids of the cautions for `work`, the gravest signal word first, then by id: those that the work, its tools and its set-ups
 * (with the set-ups and tools that those stand on) name as hazards, and those whose `appliesTo` holds for the engine state
 * (running work is warm work too), a tool, a set-up, a part, or whole words of a step in any case. Ids that do not exist are
 * left out; the rule `hazard-without-caution` reports them.
 */
export function cautionsFor(content: Content, work: HazardousWork): readonly string[] {
  const ofContent = known.get(content) ?? new WeakMap<HazardousWork, readonly string[]>();
  known.set(content, ofContent);
  const ids = ofContent.get(work) ?? workOut(content, work);
  ofContent.set(work, ids);
  return ids;
}

/** Several rules and pages ask for the cautions of the same work; neither content nor work is changed once it is read. */
const known = new WeakMap<Content, WeakMap<HazardousWork, readonly string[]>>();

function workOut(content: Content, work: HazardousWork): readonly string[] {
  const setUps = withThoseBelow(content, work.setUps);
  const tools = new Set([...work.tools, ...setUps.flatMap((id) => content['set-ups'].get(id)?.tools ?? [])]);
  const steps = [...work.steps, ...setUps.flatMap((id) => content['set-ups'].get(id)?.steps ?? [])];
  const named = new Set([
    ...work.hazards,
    ...setUps.flatMap((id) => content['set-ups'].get(id)?.hazards ?? []),
    ...[...tools].flatMap((id) => content.tools.get(id)?.hazards ?? []),
  ]);
  const states = new Set<string>(work.engineState === 'running' ? ['running', 'warm'] : work.engineState ? [work.engineState] : []);
  const parts = new Set(work.parts?.map(({ part }) => part));
  const says = phraseFinder(steps);
  const applies = ({ appliesTo }: CautionFile): boolean =>
    appliesTo.engineStates.some((state) => states.has(state)) ||
    appliesTo.tools.some((tool) => tools.has(tool)) ||
    appliesTo.setUps.some((setUp) => setUps.includes(setUp)) ||
    appliesTo.parts.some((part) => parts.has(part)) ||
    appliesTo.words.some(says);
  return [...content.cautions]
    .filter(([id, caution]) => named.has(id) || applies(caution))
    .sort(([idA, a], [idB, b]) => signalOrder.indexOf(a.signal) - signalOrder.indexOf(b.signal) || (idA < idB ? -1 : 1))
    .map(([id]) => id);
}

/** Set-ups and all that they stand on, each once. */
function withThoseBelow(content: Content, ids: readonly string[]): readonly string[] {
  const found = new Set<string>();
  const waiting = [...ids];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (found.has(id)) continue;
    found.add(id);
    waiting.push(...(content['set-ups'].get(id)?.setUps ?? []));
  }
  return [...found];
}

/** Tells whether a phrase stands in one of the texts as whole words, in any case; hyphens and line ends count as spaces. */
export function phraseFinder(texts: readonly string[]): (phrase: string) => boolean {
  // One long text is searched faster than many short ones; no phrase holds the bar between them.
  const plain = texts.map(plainWords).join('|');
  return (phrase) => plain.includes(plainWords(phrase));
}

const asWords = (text: string): string =>
  ` ${
    text
      .toLowerCase()
      .match(/[\p{L}\p{N}]+/gu)
      ?.join(' ') ?? ''
  } `;

/** The few hundred phrases of the cautions are asked of every step by every rule, so each text is taken apart once. */
const takenApart = new Map<string, string>();
function plainWords(text: string): string {
  const words = takenApart.get(text) ?? asWords(text);
  takenApart.set(text, words);
  return words;
}
