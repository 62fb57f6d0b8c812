/** The bytes of one reply -> codes. Service 03 answers as 43, 07 as 47, 0A as 4A; 7F is a refusal; 41 01 is the monitor status. */
import { codeFromBytes } from '../trouble-code.ts';
import type { Message } from './assemble.ts';

export type CodeKind = 'stored' | 'pending' | 'permanent' | 'typed';

export interface DecodedPayload {
  readonly codes: readonly string[];
  readonly kind: CodeKind;
  readonly says: string;
  readonly understood: boolean;
  readonly monitorBytes: readonly [number, number, number, number] | null;
}

const kinds: Readonly<Record<number, CodeKind>> = { 67: 'stored', 71: 'pending', 74: 'permanent' };
/** What fills the rest of a frame. */
const padding = new Set([0x00, 0x55, 0xaa, 0xcc, 0xff]);

export function decodePayload(message: Message): DecodedPayload {
  const [service, ...data] = message.bytes;
  const nothing = { codes: [], kind: 'typed' as const, monitorBytes: null };
  if (service === undefined) return { ...nothing, says: 'A frame without its beginning; not read.', understood: false };
  if (service === 0x7f) return { ...nothing, says: 'The module refused the request.', understood: true };
  if (service === 0x41 && data[0] === 0x01 && data.length >= 5) {
    const monitorBytes = data.slice(1, 5) as unknown as [number, number, number, number];
    const count = monitorBytes[0] & 0x7f;
    return {
      ...nothing,
      monitorBytes,
      says: `Monitor status: lamp ${monitorBytes[0] & 0x80 ? 'on' : 'off'}, ${count} ${count === 1 ? 'code' : 'codes'} stored.`,
      understood: true,
    };
  }
  const kind = kinds[service];
  if (!kind) return { ...nothing, says: 'Hexadecimal, but no reply to a code request (43, 47 or 4A).', understood: false };
  const { pairs, note } = splitPairs(data, message.counted);
  const codes = pairs.flatMap(([high, low]) => codeFromBytes(high, low) ?? []);
  const short = message.announced === null ? '' : ` ${message.announced} bytes were announced, ${message.bytes.length} are here.`;
  return {
    codes,
    kind,
    says: `${codes.length === 0 ? `No ${kind} codes.` : `${codes.length} ${kind}: ${codes.join(', ')}.`}${note}${short}`,
    understood: true,
    monitorBytes: null,
  };
}

type Pairs = { readonly pairs: readonly (readonly [number, number])[]; readonly note: string };

/**
 * CAN replies begin with the number of codes; older buses send three pairs, filled up with zeroes. Without a header the
 * number of bytes tells: odd means a count. An even number is a padded count only when the filling is not zero.
 */
function splitPairs(data: readonly number[], counted: boolean | null): Pairs {
  const count = data[0] ?? 0;
  const rest = data.slice(1);
  const filling = rest.slice(2 * count);
  const padded = filling.length > 0 && filling.every((byte) => byte === filling[0] && byte !== 0 && padding.has(byte));
  const hasCount = counted ?? (data.length % 2 === 1 || (padded && 2 * count <= rest.length));
  if (!hasCount) return { pairs: pairsOf(data), note: data.length % 2 === 1 ? ' The last byte has no partner and is left out.' : '' };
  const pairs = pairsOf(rest).slice(0, count);
  const missing = count - pairs.length;
  return { pairs, note: missing > 0 ? ` The reply counts ${count}; ${missing} are missing from what was pasted.` : '' };
}

const pairsOf = (bytes: readonly number[]): readonly (readonly [number, number])[] =>
  Array.from({ length: Math.floor(bytes.length / 2) }, (_, index) => [bytes[2 * index]!, bytes[2 * index + 1]!] as const);
