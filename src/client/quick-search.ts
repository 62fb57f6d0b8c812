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

/** Below this a name is no answer. */
const leastFit = 0.55;

/**
 * The list with its names cut into words once. A question is measured against each distinct word only once; an entry counts by its
 * best name, or by all its names together when the question mixes them.
 */
export function quickSearcher(entries: readonly QuickEntry[]): (question: string, most: number) => readonly QuickHit[] {
  const known: string[] = [];
  const numbers = new Map<string, number>();
  const numberOf = (word: string): number => {
    let number = numbers.get(word);
    if (number === undefined) {
      number = known.push(word) - 1;
      numbers.set(word, number);
    }
    return number;
  };
  const cut = entries.map((entry) => {
    const names = [entry[1], ...entry[3]].map((name) => words(name).map(numberOf));
    return { entry, names, all: [...new Set(names.flat())] };
  });

  // Of a question that is being typed only the last word is new.
  const remembered = new Map<string, readonly number[]>();
  const fitsOf = (word: string): readonly number[] => {
    let fits = remembered.get(word);
    if (!fits) {
      fits = known.map((other) => wordFit(word, other));
      if (remembered.size >= 50) remembered.clear();
      remembered.set(word, fits);
    }
    return fits;
  };

  return (question, most) => {
    const wanted = tellingWords(question);
    if (wanted.length === 0) return [];
    const fits = wanted.map(fitsOf);
    // The innermost loops, run for every name at every letter.
    const met = (name: readonly number[]): number => {
      let sum = 0;
      for (const fit of fits) {
        let best = 0;
        for (const number of name) if (fit[number]! > best) best = fit[number]!;
        sum += best;
      }
      return sum / wanted.length;
    };
    const hits: QuickHit[] = [];
    for (const { entry, names, all } of cut) {
      let best = 0;
      let said = 0;
      names.forEach((name, index) => {
        const part = met(name);
        const score = part < leastFit ? 0 : part + (0.2 * part * wanted.length) / Math.max(name.length, wanted.length);
        if (score > best + 1e-9) {
          best = score;
          said = index;
        }
      });
      if (best === 0 && names.length > 1) {
        const together = met(all);
        if (together >= leastFit) best = 0.8 * together;
      }
      if (best > 0) hits.push({ entry, said: said === 0 ? null : entry[3][said - 1]!, score: best * (kindWeight[entry[0]] ?? 1) });
    }
    return hits.sort((a, b) => b.score - a.score || (a.entry[1] < b.entry[1] ? -1 : 1)).slice(0, most);
  };
}
