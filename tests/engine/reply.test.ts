import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { codesOf, readReply } from '../../src/engine/reply.ts';
import { bytesFromCode, codeFromBytes } from '../../src/engine/trouble-code.ts';

const codes = (text: string) => codesOf(readReply(text));
const found = (text: string) => readReply(text).codes.map(({ code, kind, module }) => `${module ?? '-'} ${kind} ${code}`);

describe('typed and copied text', () => {
  test.each([
    ['P0301, p0302', ['P0301', 'P0302']],
    ['P0301;P0302/p0171', ['P0301', 'P0302', 'P0171']],
    ['  p0420\t', ['P0420']],
    ['PO3O1', ['P0301']],
    ['P 0301', ['P0301']],
    ['P0301 P0301', ['P0301']],
    ['P04EE', ['P04EE']],
    ['1) P0401 - Insufficient flow detected (confirmed)', ['P0401']],
    ['ECM: U0100-00, C1234-4B', ['U0100', 'C1234']],
  ])('%j', (text, expected) => {
    expect(codes(text)).toEqual(expected);
  });

  test('what the report says of a code is kept', () => {
    expect(found('P0171 System too lean - Pending\nPermanent: P0300')).toEqual(['- pending P0171', '- permanent P0300']);
  });

  test('words and part numbers are no codes', () => {
    expect(codes('B1 S1 AP03015 P4301 P030 C0FFEE')).toEqual([]);
  });

  test('a letter O read as zero is said', () => {
    expect(readReply('PO301').understanding[0]!.as).toContain('letter O read as zero');
  });
});

describe('raw replies (SAE J1979; two-byte layout of SAE J2012)', () => {
  test('with a count byte: 43 02 03 01 03 02', () => {
    expect(found('43 02 03 01 03 02')).toEqual(['- stored P0301', '- stored P0302']);
  });

  test('without a count byte, three pairs, the rest zero: 43 01 33 00 00 00 00', () => {
    expect(codes('43 01 33 00 00 00 00')).toEqual(['P0133']);
    expect(codes('43 03 01 03 02 01 71')).toEqual(['P0301', 'P0302', 'P0171']);
  });

  test('no codes: 43 00', () => {
    expect(readReply('43 00')).toMatchObject({ codes: [], understanding: [{ as: 'No stored codes.', understood: true }] });
  });

  test('service 07 and 0A are told apart', () => {
    expect(found('47 01 01 71\n4A 01 03 00')).toEqual(['- pending P0171', '- permanent P0300']);
  });

  test('with an eleven-bit CAN header, with and without blanks, padding ignored', () => {
    expect(found('7E8 06 43 02 03 01 03 02 00')).toEqual(['7E8 stored P0301', '7E8 stored P0302']);
    expect(found('7E80643020301030200')).toEqual(['7E8 stored P0301', '7E8 stored P0302']);
    expect(found('7E8 8 04 43 01 04 01 AA AA AA')).toEqual(['7E8 stored P0401']);
  });

  test('with a 29-bit header and in a bus log', () => {
    expect(found('18 DA F1 10 04 43 01 01 71')).toEqual(['10 stored P0171']);
    expect(found('  can0  7E8   [8]  04 43 01 01 71 00 00 00')).toEqual(['7E8 stored P0171']);
    expect(found('(1700000000.123) can0 7E8#0443010171000000')).toEqual(['7E8 stored P0171']);
  });

  test('several modules', () => {
    expect(found('7E8 04 43 01 03 01\n7E9 04 43 01 07 00\n7EA 02 43 00')).toEqual(['7E8 stored P0301', '7E9 stored P0700']);
  });

  test('ISO 15765 first and consecutive frames, two modules interleaved', () => {
    const text = `7E8 10 0A 43 04 03 01 03 02
7E9 10 08 43 03 07 00 07 01
7E8 21 03 03 03 04 00 00 00
7E9 21 07 02 00 00 00 00 00`;
    expect(found(text)).toEqual([
      '7E8 stored P0301',
      '7E8 stored P0302',
      '7E8 stored P0303',
      '7E8 stored P0304',
      '7E9 stored P0700',
      '7E9 stored P0701',
      '7E9 stored P0702',
    ]);
  });

  test('numbered lines with their length line', () => {
    expect(codes('00A\n0: 43 04 03 01 03 02\n1: 03 03 03 04 00 00 00')).toEqual(['P0301', 'P0302', 'P0303', 'P0304']);
  });

  test('headers of the older buses, checksum behind', () => {
    expect(found('48 6B 10 43 01 33 00 00 00 00 3A')).toEqual(['10 stored P0133']);
    expect(found('87 F1 10 43 03 01 03 02 00 00 D8')).toEqual(['10 stored P0301', '10 stored P0302']);
  });

  test('what an adapter says beside the data is passed over', () => {
    expect(codes('>03\nSEARCHING...\n43 01 03 01\nOK\n>')).toEqual(['P0301']);
    expect(readReply('NO DATA').understanding[0]!.as).toContain('no module answered');
    expect(readReply('7F 03 11').understanding[0]!.as).toContain('refused');
  });

  test('a reply cut short says how much is missing', () => {
    const reply = readReply('43 03 03 01 03 02');
    expect(codesOf(readReply('43 03 03 01')), 'odd number of bytes, so counted').toEqual(['P0301']);
    expect(readReply('43 03 03 01').understanding[0]!.as).toContain('2 are missing');
    expect(reply.understanding[0]!.understood).toBe(true);
    expect(readReply('7E8 10 0A 43 04 03 01 03 02').understanding[0]!.as).toContain('10 bytes were announced, 6 are here');
  });

  test('the monitor status is recognised: 41 01 83 07 65 04', () => {
    expect(readReply('41 01 83 07 65 04')).toMatchObject({ codes: [], monitorBytes: [0x83, 0x07, 0x65, 0x04] });
    expect(readReply('7E8 06 41 01 83 07 65 04 00').understanding[0]!.as).toBe('Module 7E8: Monitor status: lamp on, 3 codes stored.');
  });

  test('worked pairs of the two-byte layout', () => {
    expect(codes('43 05 03 01 13 36 C1 00 21 87 04 EE')).toEqual(['P0301', 'P1336', 'U0100', 'P2187', 'P04EE']);
  });

  test('text that is nothing is given back as not understood', () => {
    expect(readReply('the lamp is on').understanding).toEqual([
      { text: 'the lamp is on', as: 'No code, and no reply to a code request.', understood: false },
    ]);
  });
});

describe('properties', () => {
  const code = fc.integer({ min: 1, max: 0xffff }).map((value) => codeFromBytes(value >> 8, value & 0xff)!);
  const list = fc.uniqueArray(code, { minLength: 1, maxLength: 40 });
  const hex = (bytes: readonly number[]) => bytes.map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');
  const bytesOf = (all: readonly string[]) => all.flatMap((one) => [...bytesFromCode(one)!]);

  test('a written list comes back as it was, whatever separates it', () => {
    fc.assert(
      fc.property(list, fc.constantFrom(', ', ' ', '\n', ';', ' / ', '\r\n'), fc.boolean(), (all, separator, lower) => {
        const text = all.join(separator);
        expect(codes(lower ? text.toLowerCase() : text)).toEqual(all);
      }),
    );
  });

  test('a reply in ISO 15765 frames comes back as it was, with any padding', () => {
    fc.assert(
      fc.property(list, fc.constantFrom(0x00, 0x55, 0xaa, 0xff), (all, fill) => {
        const payload = [0x43, all.length, ...bytesOf(all)];
        const pad = (frame: readonly number[]) => [...frame, ...Array.from({ length: 8 - frame.length }, () => fill)];
        const frames =
          payload.length <= 7
            ? [pad([payload.length, ...payload])]
            : [
                [0x10 | (payload.length >> 8), payload.length & 0xff, ...payload.slice(0, 6)],
                ...Array.from({ length: Math.ceil((payload.length - 6) / 7) }, (_, index) =>
                  pad([0x20 | ((index + 1) % 16), ...payload.slice(6 + 7 * index, 13 + 7 * index)]),
                ),
              ];
        expect(codes(frames.map((frame) => `7E8 ${hex(frame)}`).join('\n'))).toEqual(all);
      }),
    );
  });

  test('a reply of an older bus comes back as it was, in messages of three pairs', () => {
    fc.assert(
      fc.property(list, (all) => {
        const lines = Array.from({ length: Math.ceil(all.length / 3) }, (_, index) => {
          const bytes = bytesOf(all.slice(3 * index, 3 * index + 3));
          return `43 ${hex([...bytes, ...Array.from({ length: 6 - bytes.length }, () => 0)])}`;
        });
        expect(codes(lines.join('\n'))).toEqual(all);
      }),
    );
  });

  test('no text makes it throw, and every line that is not blank is accounted for', () => {
    const hexish = fc.string({ unit: fc.constantFrom(...'0123456789ABCDEFabcdef :#[]()\n'), maxLength: 300 });
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 300 }), hexish, fc.string()), (text) => {
        const reply = readReply(text);
        for (const { code } of reply.codes) expect(code).toMatch(/^[PCBU][0-3][0-9A-F]{3}$/);
        const lines = text.split(/\r\n|[\r\n]/).filter((line) => line.trim() !== '');
        const told = reply.understanding.reduce((total, { text: piece }) => total + piece.split('\n').length, 0);
        expect(told).toBeLessThanOrEqual(lines.length);
        if (lines.length > 0 && told === 0) expect(lines.every((line) => /^[\s,;]*(0x)?[0-9A-F\s,;]{3,}$/i.test(line))).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});
