/**
 * The structure of a trouble code (SAE J2012 / ISO 15031-6): letter, who defines it, system; and its two bytes as they
 * travel in a service 03 reply (SAE J1979).
 */

export interface CodeStructure {
  readonly code: string;
  readonly area: 'powertrain' | 'chassis' | 'body' | 'network';
  readonly definedBy: 'standard' | 'maker';
  /** What the third character groups, for powertrain codes; null where the standard gives no group. */
  readonly subsystem: string | null;
}

const letters = ['P', 'C', 'B', 'U'] as const;
const areas = { P: 'powertrain', C: 'chassis', B: 'body', U: 'network' } as const;

/** Groups of P0 codes by their third character. From memory of the standard; P02, P04 and P05 seen in a second source. */
const subsystems: Readonly<Record<string, string>> = {
  '0': 'fuel and air metering, auxiliary emission controls',
  '1': 'fuel and air metering',
  '2': 'fuel and air metering (injector circuits)',
  '3': 'ignition system or misfire',
  '4': 'auxiliary emission controls',
  '5': 'vehicle speed, idle control, auxiliary inputs',
  '6': 'computer and auxiliary outputs',
  '7': 'transmission',
  '8': 'transmission',
  '9': 'transmission',
  A: 'hybrid propulsion',
};

const form = /^([PCBU])([0-3])([0-9A-F])([0-9A-F])([0-9A-F])$/;

/** Upper case without blanks, when it has the form of a code; else null. */
export function normaliseCode(text: string): string | null {
  const code = text.trim().toUpperCase();
  return form.test(code) ? code : null;
}

/** What the characters of a code say by themselves. Null when the text is no code. */
export function codeStructure(text: string): CodeStructure | null {
  const code = normaliseCode(text);
  const match = code?.match(form);
  if (!code || !match) return null;
  const letter = match[1] as keyof typeof areas;
  return {
    code,
    area: areas[letter],
    definedBy: definedBy(letter, match[2]!, match[3]!),
    subsystem: letter === 'P' && (match[2] === '0' || match[2] === '2') ? (subsystems[match[3]!] ?? null) : null,
  };
}

/** First digit: 0 the standard, 1 the maker; 2 the standard for P and the maker else; 3 shared: P34-P39 and U3 the standard. */
function definedBy(letter: string, digit: string, third: string): 'standard' | 'maker' {
  if (digit === '0') return 'standard';
  if (digit === '1') return 'maker';
  if (digit === '2') return letter === 'P' ? 'standard' : 'maker';
  if (letter === 'P') return Number.parseInt(third, 16) >= 4 ? 'standard' : 'maker';
  return 'standard';
}

/**
 * Code of two bytes: bits 15-14 the letter (P, C, B, U), 13-12 the first digit, then three hex digits. Null for 0x0000,
 * which is padding and no code.
 */
export function codeFromBytes(high: number, low: number): string | null {
  if (high === 0 && low === 0) return null;
  const value = ((high & 0xff) << 8) | (low & 0xff);
  return letters[value >> 14]! + ((value >> 12) & 3) + (value & 0xfff).toString(16).toUpperCase().padStart(3, '0');
}

/** The reverse of `codeFromBytes`. Null when the text is no code. */
export function bytesFromCode(text: string): readonly [number, number] | null {
  const code = normaliseCode(text);
  if (!code) return null;
  const value = (letters.indexOf(code[0] as (typeof letters)[number]) << 14) | (Number(code[1]) << 12) | Number.parseInt(code.slice(2), 16);
  return [value >> 8, value & 0xff];
}
