/** Codes written as text: `P0301, p0302`, `PO301`, `P0301-00 Cylinder 1 misfire (pending)`. */
import { normaliseCode } from '../trouble-code.ts';
import type { CodeKind } from './payload.ts';

export interface TypedLine {
  readonly codes: readonly string[];
  readonly kind: CodeKind;
  readonly says: string;
  /** What an adapter says beside the data: prompts, searching, echoes of the request. */
  readonly chatter: boolean;
}

/** Letter, four places; an O typed for a zero; blanks or a hyphen after the letter; a two-digit failure type behind a hyphen. */
const written = /(?<![0-9A-Z])([PCBU])[ \-_]?([0-3O])([0-9A-FO]{3})(?:-[0-9A-F]{2})?(?![0-9A-Z])/gi;
const chatter = /^(>|OK|SEARCHING\.*|BUS ?INIT:?.*|NO ?DATA|>?\s*0?[37A]|>?\s*01 ?01|AT ?[A-Z0-9 ]+)$/i;

export function readTyped(line: string): TypedLine {
  const codes: string[] = [];
  let mended = false;
  for (const match of line.matchAll(written)) {
    const literal = `${match[1]}${match[2]}${match[3]}`.toUpperCase();
    const code = normaliseCode(literal.replaceAll('O', '0'));
    if (!code) continue;
    mended ||= literal.includes('O');
    if (!codes.includes(code)) codes.push(code);
  }
  const kind = kindOf(line);
  if (codes.length > 0) {
    const said = kind === 'typed' ? '' : `${kind} `;
    return {
      codes,
      kind,
      says: `${said}${codes.join(', ')}${mended ? ' (letter O read as zero)' : ''}`,
      chatter: false,
    };
  }
  if (/^NO ?DATA$/i.test(line)) return { codes, kind, says: 'The adapter says that no module answered.', chatter: true };
  if (chatter.test(line)) return { codes, kind, says: 'Adapter prompt or request; no data.', chatter: true };
  return { codes, kind, says: '', chatter: false };
}

function kindOf(line: string): CodeKind {
  if (/\bpending\b/i.test(line)) return 'pending';
  if (/\bpermanent\b/i.test(line)) return 'permanent';
  if (/\b(stored|confirmed|current|active|history)\b/i.test(line)) return 'stored';
  return 'typed';
}
