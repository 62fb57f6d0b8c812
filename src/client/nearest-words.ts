/** Words that are nearly the same: typing errors, endings. */

/** Edits (insert, delete, change, swap of neighbours) from `a` to `b`, or `most + 1` when there are more. */
export function edits(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      let cost = Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, before[j - 2]! + 1);
      next.push(cost);
    }
    // What stands in two rows running can only grow.
    if (Math.min(...row) > most && Math.min(...next) > most) return most + 1;
    before = row;
    row = next;
  }
  return Math.min(row[b.length]!, most + 1);
}

/** Words that say nothing by themselves. */
const empty = new Set('a an and at the when my is it of on in to with car engine i while from not'.split(' '));

export const words = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);

/** Words that carry a question; all of them when none does. */
export function tellingWords(text: string): readonly string[] {
  const all = words(text);
  const telling = all.filter((word) => !empty.has(word));
  return telling.length > 0 ? telling : all;
}

/** How well a wanted word is met by a known one: 1 the same, less for a beginning, a stem or a typing error, 0 not at all. */
export function wordFit(wanted: string, known: string): number {
  if (wanted === known) return 1;
  if (known.startsWith(wanted) && wanted.length >= 2) return 0.9;
  if (wanted.length >= 4 && known.length >= 4 && wanted.startsWith(known.slice(0, Math.max(4, known.length - 2)))) return 0.8;
  const most = wanted.length >= 7 ? 2 : wanted.length >= 4 ? 1 : 0;
  const away = most > 0 ? edits(wanted, known, most) : 1;
  return away <= most ? 0.75 - 0.15 * away : 0;
}
