/** Codes and bytes: what was pasted, each code's two bytes, and a live-data reply in units. */
import { readReply } from '../../engine/reply.ts';
import { bytesFromCode, type CodeStructure, codeStructure } from '../../engine/trouble-code.ts';

export interface DecodedCode extends CodeStructure {
  readonly kind: string;
  readonly module: string | null;
  /** The two bytes as they travel, "03 01". */
  readonly bytes: string;
  /** The sixteen bits in the groups that the characters stand for: letter, digit, three hex digits. */
  readonly bits: string;
}

export interface DecodedLine {
  readonly text: string;
  readonly as: string;
  readonly understood: boolean;
}

export interface Decoded {
  readonly codes: readonly DecodedCode[];
  readonly lines: readonly DecodedLine[];
}

const hexByte = (byte: number): string => byte.toString(16).toUpperCase().padStart(2, '0');

/** Everything that can be made of a text: codes typed or in replies, monitor status, live data of service 01. */
export function decode(text: string): Decoded {
  const reply = readReply(text);
  const codes = reply.codes.flatMap(({ code, kind, module }) => {
    const structure = codeStructure(code);
    const bytes = bytesFromCode(code);
    if (!structure || !bytes) return [];
    const bits = bytes.map((byte) => byte.toString(2).padStart(8, '0')).join('');
    return [
      {
        ...structure,
        kind,
        module,
        bytes: bytes.map(hexByte).join(' '),
        bits: [bits.slice(0, 2), bits.slice(2, 4), bits.slice(4, 8), bits.slice(8, 12), bits.slice(12)].join(' '),
      },
    ];
  });
  const given = text.split(/\r\n|[\r\n]/).map((line) => line.trim());
  // Frames are put together after the lines round them were read: back into the order in which they stand.
  const place = (line: DecodedLine) => given.indexOf(line.text.split('\n')[0]!);
  const lines = reply.understanding
    .map((line) => {
      const live = line.understood ? null : readLiveData(line.text);
      return live === null ? line : { text: line.text, as: live, understood: true };
    })
    .sort((a, b) => place(a) - place(b));
  return { codes, lines };
}

interface LiveItem {
  readonly title: string;
  readonly bytes: number;
  readonly read: (a: number, b: number) => string;
}

const number = (value: number, places: number): string => String(Number(value.toFixed(places))).replace('-', '−');
const share = (a: number) => `${number((a * 100) / 255, 1)} %`;
const signedShare = (a: number) => `${a > 128 ? '+' : ''}${number(((a - 128) * 100) / 128, 1)} %`;
const warmth = (a: number) => `${number(a - 40, 0)} °C`;

/** Scaling of service 01 (SAE J1979 / ISO 15031-5), each seen in two or more second sources. */
const liveItems: Readonly<Record<number, LiveItem>> = {
  4: { title: 'Calculated load', bytes: 1, read: share },
  5: { title: 'Coolant temperature', bytes: 1, read: warmth },
  6: { title: 'Short-term fuel trim, bank 1', bytes: 1, read: signedShare },
  7: { title: 'Long-term fuel trim, bank 1', bytes: 1, read: signedShare },
  8: { title: 'Short-term fuel trim, bank 2', bytes: 1, read: signedShare },
  9: { title: 'Long-term fuel trim, bank 2', bytes: 1, read: signedShare },
  10: { title: 'Fuel pressure, gauge', bytes: 1, read: (a) => `${3 * a} kPa` },
  11: { title: 'Manifold pressure, absolute', bytes: 1, read: (a) => `${a} kPa` },
  12: { title: 'Engine speed', bytes: 2, read: (a, b) => `${number((256 * a + b) / 4, 2)} rpm` },
  13: { title: 'Road speed', bytes: 1, read: (a) => `${a} km/h` },
  14: { title: 'Ignition ahead of top dead centre', bytes: 1, read: (a) => `${number(a / 2 - 64, 1)}°` },
  15: { title: 'Intake air temperature', bytes: 1, read: warmth },
  16: { title: 'Air flow', bytes: 2, read: (a, b) => `${number((256 * a + b) / 100, 2)} g/s` },
  17: { title: 'Throttle', bytes: 1, read: share },
  44: { title: 'Commanded recirculation', bytes: 1, read: share },
  46: { title: 'Commanded purge', bytes: 1, read: share },
  47: { title: 'Fuel level', bytes: 1, read: share },
  48: { title: 'Warm-ups since codes were cleared', bytes: 1, read: (a) => String(a) },
  49: { title: 'Distance since codes were cleared', bytes: 2, read: (a, b) => `${256 * a + b} km` },
  66: { title: 'Module voltage', bytes: 2, read: (a, b) => `${number((256 * a + b) / 1000, 3)} V` },
};

/** "41 0C 1A F8" -> "Engine speed: 1726 rpm"; the bytes may follow a header or stand alone. Null when it is no such reply. */
export function readLiveData(text: string): string | null {
  const hex = text.replace(/[^0-9A-Fa-f]/g, '').toUpperCase();
  if (/[G-Zg-z]/.test(text)) return null;
  const match = hex.match(/^(?:[0-9A-F]{3}0[1-7])?41([0-9A-F]{2})((?:[0-9A-F]{2})+)$/);
  const item = match ? liveItems[Number.parseInt(match[1]!, 16)] : undefined;
  const data = match ? (match[2]!.match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16)) : [];
  if (!item || data.length < item.bytes) return null;
  return `${item.title}: ${item.read(data[0]!, data[1] ?? 0)}`;
}
