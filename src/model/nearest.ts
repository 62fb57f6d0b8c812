/** Nearest known word, for "did you mean". */
import { closest, distance } from 'fastest-levenshtein';

/** The known word nearest to `word`, or null when none is near (more than a third of its letters differ). */
export function nearest(word: string, known: readonly string[]): string | null {
  if (known.length === 0) return null;
  const best = closest(word.toLowerCase(), known as string[]);
  return distance(word.toLowerCase(), best) <= Math.max(2, Math.floor(Math.max(word.length, best.length) / 3)) ? best : null;
}

/** " Did you mean x?" or "". */
export function didYouMean(word: string, known: readonly string[]): string {
  const best = nearest(word, known);
  return best ? ` Did you mean ${best}?` : '';
}
