import { describe, expect, test } from 'vitest';
import { readTyped } from '../../../src/engine/reply/typed.ts';
import { readReply } from '../../../src/engine/reply.ts';

describe('codes that somebody wrote', () => {
  test.each([
    ['P0301', 'typed', 'P0301'],
    ['P0301 pending', 'pending', 'pending P0301'],
    ['permanent: P0301, U0100', 'permanent', 'permanent P0301, U0100'],
    ['P0301 stored', 'stored', 'stored P0301'],
    ['P0301 Confirmed', 'stored', 'stored P0301'],
    ['history P0301', 'stored', 'stored P0301'],
    ['PO3O1', 'typed', 'P0301 (letter O read as zero)'],
    ['spending P0301', 'typed', 'P0301'],
  ])('%s', (line, kind, says) => expect(readTyped(line)).toMatchObject({ kind, says, chatter: false }));

  test('each stands once', () => expect(readTyped('P0301 P0301 P0302').codes).toEqual(['P0301', 'P0302']));
});

describe('what an adapter says beside the data', () => {
  test.each(['NO DATA', 'nodata'])('%s: nobody answered', (line) =>
    expect(readTyped(line)).toEqual({ codes: [], kind: 'typed', says: 'The adapter says that no module answered.', chatter: true }),
  );
  test.each(['>', 'OK', 'SEARCHING...', 'BUS INIT: OK', '>03', '7', '0A', '01 01', 'ATZ', 'AT SP 6'])('%s: prompt or request', (line) =>
    expect(readTyped(line)).toEqual({ codes: [], kind: 'typed', says: 'Adapter prompt or request; no data.', chatter: true }),
  );
  test.each(['NO DATA here', 'there is NO DATA', '43 00', '0B', 'OKAY', 'my OK'])('%s: neither', (line) =>
    expect(readTyped(line)).toMatchObject({ codes: [], says: '', chatter: false }),
  );
});

describe('a reply as a whole', () => {
  test('one code of two modules, or of two kinds, stands for each; else once', () => {
    expect(readReply('7E8 04 43 01 03 01\n7E9 04 43 01 03 01\n7E8 04 47 01 03 01\n7E8 04 43 01 03 01').codes).toEqual([
      { code: 'P0301', kind: 'stored', module: '7E8' },
      { code: 'P0301', kind: 'stored', module: '7E9' },
      { code: 'P0301', kind: 'pending', module: '7E8' },
    ]);
  });
  test('what stands before a written line is read before it', () => {
    expect(readReply('43 01 03 01\nP0420').understanding).toEqual([
      { text: '43 01 03 01', as: '1 stored: P0301.', understood: true },
      { text: 'P0420', as: 'P0420', understood: true },
    ]);
  });
  test('the first monitor status stays when others say nothing of it, and blanks count for nothing', () => {
    expect(readReply('41 01 83 07 65 04\n\n  \n43 00').monitorBytes).toEqual([0x83, 0x07, 0x65, 0x04]);
    expect(readReply(' \n\r\n').understanding).toEqual([]);
  });
  test('at most 2,000 lines and 100,000 characters are read', () => {
    expect(readReply(Array.from({ length: 2500 }, () => 'P0301').join('\n')).understanding).toHaveLength(2000);
    expect(readReply(`${' '.repeat(100_000)}P0301`).codes).toEqual([]);
  });
});
