import { describe, expect, test } from 'vitest';
import { decode, readLiveData } from '../../src/bench/calc/decode.ts';

describe('codes and bytes', () => {
  // Layout of SAE J2012 / ISO 15031-6 (from memory); the values follow from it by arithmetic.
  test.each([
    ['P0301', '03 01', '00 00 0011 0000 0001', 'standard'],
    ['P1336', '13 36', '00 01 0011 0011 0110', 'maker'],
    ['P04EE', '04 EE', '00 00 0100 1110 1110', 'standard'],
    ['C0000', '40 00', '01 00 0000 0000 0000', 'standard'],
    ['U0100', 'C1 00', '11 00 0001 0000 0000', 'standard'],
    ['U3FFF', 'FF FF', '11 11 1111 1111 1111', 'standard'],
  ])('%s travels as %s', (code, bytes, bits, definedBy) => {
    expect(decode(code).codes[0]).toMatchObject({ code, bytes, bits, definedBy });
  });

  test('codes, live data and what makes no sense are told apart line by line', () => {
    const { codes, lines } = decode('7E8 06 43 02 03 01 01 71\n41 0C 1A F8\nhello');
    expect(codes.map(({ code, kind, module }) => [code, kind, module])).toEqual([
      ['P0301', 'stored', '7E8'],
      ['P0171', 'stored', '7E8'],
    ]);
    expect(lines.map(({ understood }) => understood)).toEqual([true, true, false]);
    expect(lines[1]!.as).toBe('Engine speed: 1726 rpm');
  });

  // Scaling as two or more open programs print it: 0x1AF8 = 1726 rpm, 0x90 = +12.5 %, 0x012C = 3.00 g/s (second sources, run).
  test.each([
    ['41 0C 1A F8', 'Engine speed: 1726 rpm'],
    ['41 06 90', 'Short-term fuel trim, bank 1: +12.5 %'],
    ['41 10 01 2C', 'Air flow: 3 g/s'],
    ['41 05 7B', 'Coolant temperature: 83 °C'],
    ['41 0F 00', 'Intake air temperature: −40 °C'],
    ['41 04 FF', 'Calculated load: 100 %'],
    ['410B22', 'Manifold pressure, absolute: 34 kPa'],
    ['7E8 04 41 0C 1A F8', 'Engine speed: 1726 rpm'],
    ['41 07 80', 'Long-term fuel trim, bank 1: 0 %'],
  ])('%s says "%s"', (reply, says) => {
    expect(readLiveData(reply)).toBe(says);
  });

  test.each(['41', '41 0C 1A', '43 01', '41 FE 00', 'engine', ''])('"%s" is no live data that is known', (text) => {
    expect(readLiveData(text)).toBeNull();
  });
});
