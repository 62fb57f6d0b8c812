/** The text of a file as lines and columns count it, and text made safe to print. */

// Controls but tab, LF, CR; soft hyphen; zero-width and joiner characters; direction marks, embeddings, overrides and isolates;
// fillers that show as nothing; tags; a byte-order mark anywhere. Lone surrogates cannot be written as UTF-8.
const unsafe =
  /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\u00AD\u061C\u115F-\u1160\u180E\u200B-\u200F\u2028-\u202E\u2060-\u206F\u3164\uFEFF\uFFA0\uFFF9-\uFFFB\u{D800}-\u{DFFF}\u{E0000}-\u{E0FFF}]|\u034F|\u17B4|\u17B5/gu;

/** The text without its byte-order mark and with line feeds only: what positions refer to. */
export function plainText(text: string): string {
  const unmarked = text.startsWith('\uFEFF') ? text.slice(1) : text;
  return unmarked.includes('\r') ? unmarked.replaceAll('\r\n', '\n').replaceAll('\r', '\n') : unmarked;
}

/** Every character of `text` that makes it show otherwise than it is, with its offset. */
export const unsafeIn = (text: string): readonly { readonly offset: number; readonly name: string }[] =>
  [...text.matchAll(unsafe)].map((match) => ({ offset: match.index, name: codePointName(match[0]) }));

/** `U+202E` */
const codePointName = (character: string): string => `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;

/** One character of the same width for each unsafe one, so that carets stay under their text. */
export const withoutUnsafe = (text: string): string => text.replaceAll(unsafe, (character) => '\uFFFD'.repeat(character.length));

/** A value as a message shows it: short, on one line, no character that could move the cursor or hide text. */
export function quoted(value: unknown): string {
  if (value === null) return 'empty';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a map';
  if (typeof value !== 'string') return String(value);
  const text = value.length > 60 ? `${value.slice(0, 57)}…` : value;
  return JSON.stringify(text).replaceAll(unsafe, (character) => `\\u{${character.codePointAt(0)!.toString(16).toUpperCase()}}`);
}
