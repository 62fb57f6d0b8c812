/** Codes in what was typed. */
import { type CodeStructure, codeStructure } from '../engine/trouble-code.ts';

export interface TypedCodes {
  /** In the order in which they were typed, each once. */
  readonly codes: readonly CodeStructure[];
  /** What is left besides. */
  readonly rest: string;
}

export function typedCodes(text: string): TypedCodes {
  const found = new Map<string, CodeStructure>();
  const rest = text.replace(/[\p{L}\p{N}]+/gu, (word) => {
    const structure = codeStructure(word);
    if (!structure) return word;
    found.set(structure.code, structure);
    return '';
  });
  return { codes: [...found.values()], rest: rest.replace(/[\s,;+]+/g, ' ').trim() };
}

/** What the characters of a code say by themselves, in a sentence. */
export function structureSentence(structure: CodeStructure): string {
  const who =
    structure.definedBy === 'standard'
      ? 'defined by SAE J2012 / ISO 15031-6'
      : 'defined by the maker: see the service information for the vehicle';
  return `${structure.area} code, ${who}${structure.subsystem ? `; ${structure.subsystem}` : ''}`;
}
