import { decode, readLiveData } from '../calc/decode.ts';
import type { Sheet } from './sheet.ts';

const examples = ['P0301', 'P0171', 'P1336', 'P2187', 'P04EE', 'C0000', 'B0000', 'U0100', 'U3FFF'];

export const codesAndBytes: Sheet = {
  id: 'codes-and-bytes',
  title: 'Codes and bytes',
  asks: 'What do these bytes say, and who defined this code?',
  formula: [
    'bits 15-14: letter (00 P, 01 C, 10 B, 11 U)',
    'bits 13-12: first digit',
    'bits 11-8, 7-4 and 3-0: the rest, each a hexadecimal digit',
  ],
  symbols: [
    ['43, 47, 4A', 'first byte of a reply with stored, pending, permanent codes'],
    ['41', 'first byte of a reply with live data, then the item and its bytes A, B'],
    ['7F', 'the module refused'],
  ],
  worked: () => [
    {
      caption: 'Codes as bytes',
      head: ['Code', 'Bytes', 'Bits', 'Defined by', 'Group'],
      rows: examples.map((code) => {
        const found = decode(code).codes[0]!;
        return [
          code,
          found.bytes,
          found.bits,
          found.definedBy === 'standard' ? 'the standard' : 'the maker',
          found.subsystem ?? found.area,
        ];
      }),
    },
    {
      caption: 'Live data',
      head: ['Reply', 'Says'],
      rows: ['41 04 66', '41 05 7B', '41 06 90', '41 0B 22', '41 0C 1A F8', '41 10 01 2C', '41 42 36 B0'].map((reply) => [
        reply,
        readLiveData(reply)!,
      ]),
    },
  ],
  limits: [
    'The title of a maker’s code stands in the service information only.',
    'Without a header an even number of bytes may be read with or without a count; the page says which it took.',
    'Letters of coil codes (P0351 is coil A) are not cylinder numbers.',
  ],
  sources: [
    { reference: 'sae-j2012', for: 'structure of a code' },
    { reference: 'iso-15031-6', for: 'the same, internationally; the layout of the bits is from memory' },
    { reference: 'sae-j1979', for: 'replies and scaling of live data, from second sources' },
  ],
  checks: ['clear-and-see-whether-it-returns-at-once'],
  families: [],
  terms: ['generic-code', 'stored-code', 'pending-code', 'permanent-code', 'live-data', 'diagnostic-connector'],
};
