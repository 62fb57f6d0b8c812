/** Answers from the small list: every telling word of the question met by a title or another name, typing errors forgiven. */
import { tellingWords, wordFit, words } from './nearest-words.ts';

export type QuickEntry = readonly [kind: string, title: string, href: string, also: readonly string[]];
export interface QuickHit {
  readonly entry: QuickEntry;
  /** The name that fits best, when it is not the title. */
  readonly said: string | null;
  readonly score: number;
}

const kindWeight: Readonly<Record<string, number>> = {
  Symptom: 1.15,
  Code: 1.1,
  Family: 1.05,
  Check: 1,
  Cause: 1,
  Tool: 0.95,
  Part: 0.9,
  Term: 0.9,
};

/** How well a name answers the wanted words, 0 to about 1.2. */
function nameFit(wanted: readonly string[], name: readonly string[]): number {
  if (name.length === 0) return 0;
  let sum = 0;
  for (const word of wanted) sum += Math.max(...name.map((known) => wordFit(word, known)));
  const met = sum / wanted.length;
  return met < 0.55 ? 0 : met + 0.2 * (sum / Math.max(name.length, wanted.length));
}

/** The list with its names cut into words once. */
export function quickSearcher(entries: readonly QuickEntry[]): (question: string, most: number) => readonly QuickHit[] {
  const cut = entries.map((entry) => ({ entry, names: [entry[1], ...entry[3]].map(words) }));
  return (question, most) => {
    const wanted = tellingWords(question);
    if (wanted.length === 0) return [];
    const hits: QuickHit[] = [];
    for (const { entry, names } of cut) {
      let best = 0;
      let said = 0;
      names.forEach((name, index) => {
        const fit = nameFit(wanted, name);
        if (fit > best + 1e-9) {
          best = fit;
          said = index;
        }
      });
      if (best > 0) hits.push({ entry, said: said === 0 ? null : entry[3][said - 1]!, score: best * (kindWeight[entry[0]] ?? 1) });
    }
    return hits.sort((a, b) => b.score - a.score || (a.entry[1] < b.entry[1] ? -1 : 1)).slice(0, most);
  };
}
