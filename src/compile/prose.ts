/** Prose as pieces: plain text, and the first mention of each term of the trade with a link to where it is explained. */
import { address } from './address.ts';

export interface Piece {
  readonly text: string;
  /** Page and short meaning of the term, when the text is one. */
  readonly term?: { readonly href: string; readonly means: string };
}

interface Term {
  readonly title: string;
  readonly also: readonly string[];
  readonly means: string;
}

/** Cuts text at terms; `seen` holds the ids that the page has linked already and is added to. */
export type ProseCutter = (text: string, seen: Set<string>) => readonly Piece[];

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** The first sentence of an explanation: enough for a hint. */
export const firstSentence = (text: string): string => text.match(/^.*?[.!?](?=\s|$)/s)?.[0] ?? text;

/** Letters that stand for a name, such as CAN: in small letters they are another word. */
const isInitials = (form: string): boolean => /^\p{Lu}{2,5}$/u.test(form);

/** A cutter for a glossary. Longer forms win over shorter ones; whole words only, in any case but that of initials. */
export function proseCutter(terms: ReadonlyMap<string, Term>): ProseCutter {
  const byForm = new Map<string, string>();
  const initials = new Set([...terms.values()].flatMap((term) => [term.title, ...term.also]).filter(isInitials));
  for (const [id, term] of [...terms].sort(([a], [b]) => (a < b ? -1 : 1)))
    for (const form of [term.title, ...term.also]) if (!byForm.has(form.toLowerCase())) byForm.set(form.toLowerCase(), id);
  const forms = [...byForm.keys()].sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
  if (forms.length === 0) return (text) => [{ text }];
  const pattern = new RegExp(`(?<![\\p{L}\\p{N}-])(?:${forms.map(escaped).join('|')})s?(?![\\p{L}\\p{N}-])`, 'giu');
  return (text, seen) => {
    const pieces: Piece[] = [];
    let from = 0;
    for (const match of text.matchAll(pattern)) {
      const form = match[0].toLowerCase();
      const id = byForm.get(form) ?? byForm.get(form.replace(/s$/, ''));
      if (!id || seen.has(id)) continue;
      const capitals = match[0].replace(/s$/, '');
      if (initials.has(capitals.toUpperCase()) && capitals !== capitals.toUpperCase()) continue;
      seen.add(id);
      if (match.index > from) pieces.push({ text: text.slice(from, match.index) });
      pieces.push({ text: match[0], term: { href: address('terms', id), means: firstSentence(terms.get(id)!.means) } });
      from = match.index + match[0].length;
    }
    if (from < text.length) pieces.push({ text: text.slice(from) });
    return pieces;
  };
}
