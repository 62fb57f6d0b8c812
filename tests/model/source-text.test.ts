import { describe, expect, test } from 'vitest';
import { plainText, quoted, unsafeIn, withoutUnsafe } from '../../src/model/source-text.ts';

describe('the text that positions refer to', () => {
  test('has no byte-order mark at its start and line feeds only', () => {
    expect(plainText('\uFEFFid: a\r\nb: 1\rc: 2\n')).toBe('id: a\nb: 1\nc: 2\n');
    expect(plainText('id: a\n')).toBe('id: a\n');
    // A mark further on is a character like any other, and told as unsafe.
    expect(plainText('a\uFEFF')).toBe('a\uFEFF');
  });
});

describe('characters that make a text show otherwise than it is', () => {
  test('are found with their offset and their name', () => {
    expect(unsafeIn('ab\u202Ec\u200B')).toEqual([
      { offset: 2, name: 'U+202E' },
      { offset: 4, name: 'U+200B' },
    ]);
    expect(unsafeIn('\u0007')).toEqual([{ offset: 0, name: 'U+0007' }]);
    expect(unsafeIn('a\tb\nc \u00e9 20\u00a0\u00b0C \u2013 \u03bb')).toEqual([]);
  });

  test('are shown as one mark of the same width each', () => {
    expect(withoutUnsafe('a\u202Eb')).toBe('a\uFFFDb');
    // A tag character takes two units of a string.
    expect(withoutUnsafe('a\u{E0041}b')).toBe('a\uFFFD\uFFFDb');
  });
});

describe('a value as a message shows it', () => {
  test('is named by its kind where it is no text', () => {
    expect([null, [1, 2], { a: 1 }, 3.5, true, undefined].map(quoted)).toEqual(['empty', 'a list', 'a map', '3.5', 'true', 'undefined']);
  });

  test('is cut after 57 characters once it has more than 60', () => {
    expect(quoted('a'.repeat(60))).toBe(`"${'a'.repeat(60)}"`);
    expect(quoted('a'.repeat(61))).toBe(`"${'a'.repeat(57)}…"`);
  });

  test('stays on one line, quotes escaped, with the number of what would hide or move text', () => {
    expect(quoted('say "no"\nand more')).toBe('"say \\"no\\"\\nand more"');
    expect(quoted('a\u202Eb')).toBe('"a\\u{202E}b"');
    expect(quoted('a\u{E0041}')).toBe('"a\\u{E0041}"');
  });
});
