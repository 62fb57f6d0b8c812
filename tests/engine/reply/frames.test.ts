/** Lines of hexadecimal as frames, and frames as messages: ISO 15765-2, and the headers of SAE J1850, ISO 9141-2 and ISO 14230 (from memory). */
import { describe, expect, test } from 'vitest';
import { assemble, type Frame } from '../../../src/engine/reply/assemble.ts';
import { readFrame } from '../../../src/engine/reply/frame.ts';
import { decodePayload } from '../../../src/engine/reply/payload.ts';

const read = (line: string) => {
  const frame = readFrame(line);
  return frame && [frame.bus, frame.module, frame.sequence, frame.bytes.map((byte) => byte.toString(16).padStart(2, '0')).join(' ')];
};
const frames = (text: string): Frame[] => text.split('\n').map((line) => readFrame(line)!);
const messages = (text: string) =>
  assemble(frames(text)).map(({ module, counted, bytes, announced }) => [
    module,
    counted,
    bytes.map((byte) => byte.toString(16)).join(' '),
    announced,
  ]);
const says = (...bytes: number[]) => decodePayload({ text: '', module: null, counted: null, bytes, announced: null });

describe('one line as a frame', () => {
  test.each([
    ['7E8 03 43 01 02', ['can', '7E8', 0, '03 43 01 02']],
    ['7e8034301', ['can', '7E8', 0, '03 43 01']],
    ['7E8, 03; 43 01', ['can', '7E8', 0, '03 43 01']],
    ['0x7E8 0x03 0x43 0x01', ['can', '7E8', 0, '03 43 01']],
    ['18DAF110 04 43 01 01 71', ['can', '10', 0, '04 43 01 01 71']],
    ['18DAF11A#0343', ['can', '1A', 0, '03 43']],
    ['can0 7E8 [3] 03 43 01', ['can', '7E8', 0, '03 43 01']],
    ['vcan12 7EA#02 43', ['can', '7EA', 0, '02 43']],
    ['(12.5)  can0  7E8 [2] 02 43', ['can', '7E8', 0, '02 43']],
    ['7E8 8 06 43 02 03 01 03 02 00', ['can', '7E8', 0, '06 43 02 03 01 03 02 00']],
    ['7E8 08 06 43 02 03 01 03 02 00', ['can', '7E8', 0, '06 43 02 03 01 03 02 00']],
    ['7E8 07 06 43 02 03 01 03 02 00', ['can', '7E8', 0, '07 06 43 02 03 01 03 02 00']],
    ['0: 43 04 03', ['numbered', null, 0, '43 04 03']],
    [' A:0301', ['numbered', null, 10, '03 01']],
    ['00A', ['length', null, 0, '0a']],
    ['43 01 03 01', ['plain', null, 0, '43 01 03 01']],
    ['43,01;03 01', ['plain', null, 0, '43 01 03 01']],
  ])('%s', (line, expected) => expect(read(line)).toEqual(expected));

  test.each(['the lamp', '43 01 0', '6E8 03 43 01', '1: 4', 'G3', ''])('%j is none', (line) => expect(read(line)).toBeNull());

  test.each([
    ['48 6B 10 43 01 33 3A', ['legacy', '10', 0, '43 01 33']],
    ['48 6B 09 47 01 33 3A', ['legacy', '09', 0, '47 01 33']],
    ['83 F1 11 43 01 33 3A', ['legacy', '11', 0, '43 01 33']],
    // A length of zero in the format byte: all but the checksum.
    ['80 F1 11 43 01 33 3A', ['legacy', '11', 0, '43 01 33']],
    ['48 6B 1F 43 3A', ['legacy', '1F', 0, '43']],
    ['48 6B 10 43 01 02 03 04 05 06 07 3A', ['legacy', '10', 0, '43 01 02 03 04 05 06 07']],
  ])('%s, with the header of an older bus', (line, expected) => expect(read(line)).toEqual(expected));

  test.each([
    ['48 6B 10 43', 'too short'],
    ['48 6B 10 43 01 02 03 04 05 06 07 08 3A', 'too long'],
    ['48 6B 10 44 01 33 3A', 'no reply that is asked for'],
    ['48 6A 10 43 01 33 3A', 'another target'],
    ['49 6B 10 43 01 33 3A', 'another kind of message'],
    ['87 F0 10 43 01 33 3A', 'not to the tester'],
    ['47 F1 10 43 01 33 3A', 'no format byte'],
  ])('%s is not one: %s', (line) => expect(read(line)![0]).toBe('plain'));
});

describe('frames as messages', () => {
  test('a single frame holds as many bytes as it says', () => {
    expect(messages('7E8 03 43 01 02 00 00')).toEqual([['7E8', true, '43 1 2', null]]);
    expect(messages('7E8 05 43 01')).toEqual([['7E8', true, '43 1', 5]]);
    expect(messages('7E8 02 43 01')).toEqual([['7E8', true, '43 1', null]]);
  });
  test('a first frame and what follows it in order are one message, cut at the length announced', () => {
    expect(messages('7E8 10 09 43 04 01 02 03 04\n7E8 21 05 06 07 00 00')).toEqual([['7E8', true, '43 4 1 2 3 4 5 6 7', null]]);
    const [message] = assemble(frames('7E8 10 08 43 04 01 02 03 04\n7E8 21 05 06'));
    expect(message!.text).toBe('7E8 10 08 43 04 01 02 03 04\n7E8 21 05 06');
  });
  test('a length of more than 255 bytes is read whole', () => {
    expect(messages('7E8 11 02 43 04 01 02 03 04')).toEqual([['7E8', true, '43 4 1 2 3 4', 258]]);
  });
  test('one that is cut short says what was announced', () => {
    expect(messages('7E8 10 0A 43 04 01 02 03 04\n7E8 21 05')).toEqual([['7E8', true, '43 4 1 2 3 4 5', 10]]);
  });
  test('a frame out of order stands alone without bytes, and ends nothing', () => {
    expect(messages('7E8 10 0F 43 06 01 02 03 04\n7E8 22 09\n7E8 21 05 06')).toEqual([
      ['7E8', true, '', null],
      ['7E8', true, '43 6 1 2 3 4 5 6', 15],
    ]);
    expect(messages('7E8 21 05 06')).toEqual([['7E8', true, '', null]]);
    expect(messages('7E8 30 00 00'), 'flow control carries nothing').toEqual([['7E8', true, '', null]]);
  });
  test('after fifteen the numbers of frames begin anew at zero', () => {
    const following = Array.from({ length: 17 }, (_, index) => `7E8 2${((index + 1) % 16).toString(16)} 0${index % 10}`);
    expect(assemble(frames(['7E8 10 17 43 04 01 02 03 04', ...following].join('\n')))[0]!.bytes).toHaveLength(23);
  });
  test('a new first frame closes the one before it', () => {
    expect(messages('7E8 10 0A 43 04\n7E8 10 0A 47 04')).toEqual([
      ['7E8', true, '43 4', 10],
      ['7E8', true, '47 4', 10],
    ]);
  });
  test('modules do not mix', () => {
    expect(messages('7E8 10 03 43 01\n7E9 10 03 47 02\n7E9 21 22\n7E8 21 11').map(([module, , bytes]) => [module, bytes])).toEqual([
      ['7E9', '47 2 22'],
      ['7E8', '43 1 11'],
    ]);
  });
  test('numbered lines are one message, as long as the line before them says', () => {
    expect(messages('004\n0: 43 01 03\n1: 01 00 00')).toEqual([[null, true, '43 1 3 1', null]]);
    expect(messages('0: 43 01 03\n1: 01 00')).toEqual([[null, true, '43 1 3 1 0', null]]);
    expect(messages('005\n0: 43 01 03')).toEqual([[null, true, '43 1 3', 5]]);
  });
  test('a second line 0 begins a second message; the length line counts for one message alone', () => {
    expect(messages('004\n0: 43 01 03\n0: 47 01\n1: 02 03 04')).toEqual([
      [null, true, '43 1 3', 4],
      [null, true, '47 1 2 3 4', null],
    ]);
  });
  test('a numbered line without its beginning carries nothing', () => expect(messages('1: 03 04')).toEqual([[null, true, '', null]]));
  test('on the older buses no count is to be expected; without headers nobody knows', () => {
    expect(messages('48 6B 10 43 01 33 3A')).toEqual([['10', false, '43 1 33', null]]);
    expect(messages('43 01 03 01')).toEqual([[null, null, '43 1 3 1', null]]);
  });
});

describe('what a message says', () => {
  test.each([
    [[], 'A frame without its beginning; not read.', false],
    [[0x7f, 0x03, 0x11], 'The module refused the request.', true],
    [[0x44, 0x01], 'Hexadecimal, but no reply to a code request (43, 47 or 4A).', false],
    [[0x41, 0x01, 0x81, 0x07, 0x65, 0x04], 'Monitor status: lamp on, 1 code stored.', true],
    [[0x41, 0x01, 0x00, 0x07, 0x65, 0x04], 'Monitor status: lamp off, 0 codes stored.', true],
    [[0x41, 0x01, 0x02, 0x07, 0x65], 'Hexadecimal, but no reply to a code request (43, 47 or 4A).', false],
    [[0x41, 0x02, 0x81, 0x07, 0x65, 0x04], 'Hexadecimal, but no reply to a code request (43, 47 or 4A).', false],
    [[0x43, 0x01, 0x03, 0x01], '1 stored: P0301.', true],
    [[0x47, 0x02, 0x03, 0x01, 0x01, 0x71], '2 pending: P0301, P0171.', true],
    [[0x4a, 0x00], 'No permanent codes.', true],
    [[0x43, 0x03, 0x03, 0x01, 0x03, 0x02], '2 stored: P0301, P0302. The reply counts 3; 1 are missing from what was pasted.', true],
  ])('%j: %s', (bytes, words, understood) => {
    expect(says(...bytes)).toMatchObject({ says: words, understood });
  });
  test('only the monitor status carries its bytes, and nothing but codes carries codes', () => {
    expect(says(0x41, 0x01, 0x81, 0x07, 0x65, 0x04, 0x00)).toMatchObject({
      codes: [],
      kind: 'typed',
      monitorBytes: [0x81, 0x07, 0x65, 0x04],
    });
    expect(says(0x43, 0x01, 0x03, 0x01)).toMatchObject({ codes: ['P0301'], kind: 'stored', monitorBytes: null });
  });
  test('an even number of bytes is counted only where what fills it up is no zero', () => {
    expect(says(0x43, 0x01, 0x33, 0x00, 0x00).codes).toEqual(['P0133']);
    expect(says(0x43, 0x01, 0x03, 0x01, 0xaa).codes, 'counted one, filled with AA').toEqual(['P0301']);
    expect(says(0x43, 0x01, 0x03, 0x01, 0x55, 0x55, 0x55).codes).toEqual(['P0301']);
    expect(says(0x43, 0x01, 0x03, 0x01, 0x12).codes, 'a byte that fills nothing').toEqual(['P0103', 'P0112']);
    expect(says(0x43, 0x01, 0x03, 0x01, 0xaa, 0x55, 0xaa).codes, 'filling is of one byte').not.toEqual(['P0301']);
  });
  test('without a count an odd byte is left out, and that is said', () => {
    const odd = decodePayload({ text: '', module: '10', counted: false, bytes: [0x43, 0x01, 0x33, 0x05], announced: null });
    expect(odd).toMatchObject({ codes: ['P0133'], says: '1 stored: P0133. The last byte has no partner and is left out.' });
    const even = decodePayload({ text: '', module: '10', counted: false, bytes: [0x43, 0x01, 0x33], announced: null });
    expect(even.says).toBe('1 stored: P0133.');
  });
  test('a message cut short says how much was announced', () => {
    const cut = decodePayload({ text: '', module: '7E8', counted: true, bytes: [0x43, 0x02, 0x03, 0x01], announced: 6 });
    expect(cut.says).toBe('1 stored: P0301. The reply counts 2; 1 are missing from what was pasted. 6 bytes were announced, 4 are here.');
  });
});
