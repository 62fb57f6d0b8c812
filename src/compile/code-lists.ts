/** All codes with a tree, by the group that their third character names. */
import type { Knowledge } from '../engine/knowledge.ts';
import { codeStructure } from '../engine/trouble-code.ts';
import { codeAddress } from './address.ts';

export interface CodeBlock {
  readonly id: string;
  readonly title: string;
  readonly codes: readonly { readonly id: string; readonly title: string; readonly href: string }[];
}

/** Blocks such as "P03: ignition system or misfire", sorted. */
export function codeBlocks(knowledge: Knowledge): readonly CodeBlock[] {
  const blocks = Map.groupBy(Object.values(knowledge.codes), (code) => code.id.slice(0, 3));
  return [...blocks]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([id, codes]) => {
      const structure = codeStructure(codes[0]!.id)!;
      return {
        id: id.toLowerCase(),
        title: `${id}: ${structure.subsystem ?? structure.area}`,
        codes: codes.map((code) => ({ id: code.id, title: code.title, href: codeAddress(code.id) })),
      };
    });
}
