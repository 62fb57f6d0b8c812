import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contentHash, fnv1a64 } from '../../src/model/hash.ts';

/** The definition, over whole numbers of any size: Fowler, Noll and Vo, 64 bits; offset basis and prime recalled. */
function reference(bytes: readonly number[]): string {
  let hash = 0xcbf29ce484222325n;
  for (const byte of bytes) hash = ((hash ^ BigInt(byte)) * 0x100000001b3n) & 0xffffffffffffffffn;
  return hash.toString(16).padStart(16, '0');
}

const ascii = (text: string): number[] => [...text].map((character) => character.charCodeAt(0));

describe('the 64-bit FNV-1a hash', () => {
  it.each([
    // Test vectors published with the algorithm's sample code (test_fnv.c of its authors); recalled, not read here.
    ['', 'cbf29ce484222325'],
    ['a', 'af63dc4c8601ec8c'],
    ['b', 'af63df4c8601f1a5'],
    ['foobar', '85944171f73967e8'],
  ])('of %j is %s', (text, hash) => {
    expect(fnv1a64(ascii(text))).toBe(hash);
    expect(reference(ascii(text))).toBe(hash);
  });

  it('agrees with its definition on any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => fnv1a64(bytes) === reference([...bytes])),
      { seed: 7 },
    );
  });
});

describe('the hash of content', () => {
  const files = [
    { path: 'content/tools/a.yaml', text: 'title: höhe 🔧\n' },
    { path: 'content/tools/b.yaml', text: '' },
  ];

  it('is over the UTF-16 units of paths and texts, low byte first, in the order of the paths', () => {
    const units = (text: string) =>
      Array.from(text, (_, i) => i).length &&
      [...Array(text.length).keys()].flatMap((i) => [text.charCodeAt(i) & 0xff, text.charCodeAt(i) >> 8]);
    const all = files.map((file) => `${file.path}\0${file.text}\u0001`).join('');
    expect(contentHash(files)).toBe(reference(units(all) as number[]));
  });

  it('does not depend on the order of the files', () => {
    expect(contentHash([...files].reverse())).toBe(contentHash(files));
  });

  it('does not see templates, which some readers of content leave out', () => {
    expect(contentHash([...files, { path: 'content/tools/_template.yaml', text: 'title: x' }])).toBe(contentHash(files));
  });

  it('moves when a text moves, or goes from one file to another', () => {
    const [a, b] = files as [(typeof files)[0], (typeof files)[0]];
    expect(contentHash([a, { ...b, text: ' ' }])).not.toBe(contentHash(files));
    expect(
      contentHash([
        { ...a, text: b.text },
        { ...b, text: a.text },
      ]),
    ).not.toBe(contentHash(files));
  });
});
