/** One line of hexadecimal -> one frame: module address, bytes, and how the bus was read. */
import type { Frame } from './assemble.ts';

const compact = (line: string): string => line.replace(/[\s,;]+/g, '').toUpperCase();
const bytesOf = (hex: string): readonly number[] => (hex.match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));

/** Null when the line is no hexadecimal at all, or no reply. */
export function readFrame(line: string): Frame | null {
  const logged = loggedFrame(line);
  if (logged) return logged;
  const numbered = line.match(/^\s*([0-9A-F]):\s*((?:[0-9A-F]{2}\s*)+)$/i);
  if (numbered)
    return {
      text: line,
      module: null,
      bus: 'numbered',
      sequence: Number.parseInt(numbered[1]!, 16),
      bytes: bytesOf(compact(numbered[2]!)),
    };
  const hex = compact(line.replace(/0x/gi, ''));
  if (!/^[0-9A-F]+$/.test(hex)) return null;
  // The length line in front of numbered lines: three digits.
  if (hex.length === 3) return { text: line, module: null, bus: 'length', sequence: 0, bytes: [Number.parseInt(hex, 16)] };
  // Eleven-bit header: three digits make the count odd.
  const eleven = hex.match(/^(7[0-9A-F]{2})((?:[0-9A-F]{2})+)$/);
  if (hex.length % 2 === 1) return eleven ? can(line, eleven[1]!, bytesOf(eleven[2]!)) : null;
  const twentyNine = hex.match(/^(18DA[0-9A-F]{4})((?:[0-9A-F]{2})+)$/);
  if (twentyNine) return can(line, twentyNine[1]!.slice(6), bytesOf(twentyNine[2]!));
  const bytes = bytesOf(hex);
  return legacy(line, bytes) ?? { text: line, module: null, bus: 'plain', sequence: 0, bytes };
}

/** A line of a bus log, or with a one-digit data length: `can0 7E8 [8] 06 43 ...`, `(1.0) can0 7E8#0643...`, `7E8 8 06 43 ...`. */
function loggedFrame(line: string): Frame | null {
  const match = line.match(
    /^(?:\([\d.]+\)\s*)?(?:v?can\d+\s+)?((?:7[0-9A-F]{2})|(?:18DA[0-9A-F]{4}))(?:\s*\[\d\]\s*|#|\s+\d\s+)((?:[0-9A-F]{2}\s*)+)$/i,
  );
  return match ? can(line, match[1]!.toUpperCase().replace(/^18DA../, ''), bytesOf(compact(match[2]!))) : null;
}

function can(text: string, module: string, data: readonly number[]): Frame {
  // A data length code of two digits between header and data.
  const bytes = data.length === 9 && data[0] === 8 ? data.slice(1) : data;
  return { text, module, bus: 'can', sequence: 0, bytes };
}

/**
 * Three header bytes, at most seven of data and a checksum: J1850 and ISO 9141 (`48 6B 10 43 ...`), ISO 14230 (`87 F1 10 43 ...`).
 * From memory of those standards.
 */
function legacy(text: string, bytes: readonly number[]): Frame | null {
  if (bytes.length < 5 || bytes.length > 12) return null;
  const [first, target, source] = bytes as [number, number, number];
  const replies = [0x43, 0x47, 0x4a, 0x41, 0x7f];
  if (!replies.includes(bytes[3]!)) return null;
  const old = first === 0x48 && target === 0x6b;
  const keyword = first >= 0x80 && target === 0xf1;
  if (!old && !keyword) return null;
  const length = keyword && (first & 0x3f) > 0 ? first & 0x3f : bytes.length - 4;
  return {
    text,
    module: source.toString(16).toUpperCase().padStart(2, '0'),
    bus: 'legacy',
    sequence: 0,
    bytes: bytes.slice(3, 3 + length),
  };
}
