import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bytesFromCode, codeFromBytes, codeStructure, normaliseCode } from '../../src/engine/trouble-code.ts';

describe('the two bytes of a code (layout of SAE J2012 / ISO 15031-6, from memory; values computed from it by hand)', () => {
  test.each([
    [0x0301, 'P0301'],
    [0x0171, 'P0171'],
    [0x0401, 'P0401'],
    [0x1336, 'P1336'],
    [0x4000, 'C0000'],
    [0x8000, 'B0000'],
    [0xc100, 'U0100'],
    [0x2187, 'P2187'],
    // 40 CFR 86.1806-17(b)(1) names P04EE as an evaporative code: hex letters are legal.
    [0x04ee, 'P04EE'],
    [0xffff, 'U3FFF'],
  ])('0x%s is %s, and back', (value, code) => {
    expect(codeFromBytes(value >> 8, value & 0xff)).toBe(code);
    expect(bytesFromCode(code)).toEqual([value >> 8, value & 0xff]);
  });

  test('0x0000 is padding, not a code', () => {
    expect(codeFromBytes(0, 0)).toBeNull();
  });

  test('every pair of bytes but the padding comes back from its code', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 0xffff }), (value) => {
        expect(bytesFromCode(codeFromBytes(value >> 8, value & 0xff)!)).toEqual([value >> 8, value & 0xff]);
      }),
    );
  });
});

describe('the structure of a code', () => {
  test('the letter names the area', () => {
    expect(['P0301', 'C0035', 'B0001', 'U0100'].map((code) => codeStructure(code)?.area)).toEqual([
      'powertrain',
      'chassis',
      'body',
      'network',
    ]);
  });

  test('the first digit says who defines it: P0 and P2 the standard, P1 the maker, P3 split at P3400 (from memory of the standard)', () => {
    expect(['P0301', 'P1336', 'P2135', 'P3399', 'P3400', 'C2100', 'U1100'].map((code) => codeStructure(code)?.definedBy)).toEqual([
      'standard',
      'maker',
      'standard',
      'maker',
      'standard',
      'maker',
      'maker',
    ]);
  });

  test('of codes that begin with 3 the standard defines those of the network, whatever follows (from memory of the standard)', () => {
    expect(codeStructure('U3100')?.definedBy).toBe('standard');
    expect(codeStructure('U3500')?.definedBy).toBe('standard');
  });

  test('the third character groups the powertrain codes', () => {
    expect(codeStructure('P0301')?.subsystem).toContain('misfire');
    expect(codeStructure('P0401')?.subsystem).toContain('emission');
    expect(codeStructure('P2301')?.subsystem).toBe(codeStructure('P0301')?.subsystem);
    expect(codeStructure('P1301')?.subsystem).toBeNull();
    expect(codeStructure('C0301')?.subsystem).toBeNull();
  });

  test.each(['', 'P', '0301', 'P030', 'P03011', 'X0301', 'P4301', 'P03G1'])('%j is no code', (text) => {
    expect(codeStructure(text)).toBeNull();
  });

  test('case and blanks do not matter', () => {
    expect(normaliseCode('  p04ee ')).toBe('P04EE');
  });
});
