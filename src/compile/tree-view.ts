/** A family's cause tree with the chance of every branch and leaf. */

import type { Branch, Leaf } from '../model/schema/family.ts';
import type { Content, FamilyFile } from '../model/schema/index.ts';
import { type Mention, mention } from './catalogue.ts';

export interface TreeNode {
  readonly title: string;
  readonly chance: number;
  readonly why: string | null;
  /** The cause of a leaf; null for a branch. */
  readonly cause: Mention | null;
  readonly children: readonly TreeNode[];
}

/**
 * The tree with chances from `chanceOf` (a cause's probability); a branch has the sum of its leaves. The likeliest child
 * comes first; "none of these" stands last, with what is left.
 */
export function treeView(content: Content, family: FamilyFile, chanceOf: (cause: string) => number): readonly TreeNode[] {
  const nodeOf = (node: Leaf | Branch): TreeNode => {
    if ('branches' in node) {
      const children = sorted(node.branches.map(nodeOf));
      return { title: node.title, chance: sum(children), why: node.why ?? null, cause: null, children };
    }
    const cause = mention(content, 'causes', node.cause);
    return { title: cause.title, chance: chanceOf(node.cause), why: node.why ?? null, cause, children: [] };
  };
  const roots = sorted((family.tree as readonly (Leaf | Branch)[]).map(nodeOf));
  const rest = Math.max(0, 1 - sum(roots));
  return [...roots, { title: 'None of these', chance: rest, why: null, cause: null, children: [] }];
}

const sum = (nodes: readonly TreeNode[]): number => nodes.reduce((total, node) => total + node.chance, 0);
const sorted = (nodes: readonly TreeNode[]): readonly TreeNode[] =>
  [...nodes].sort((a, b) => b.chance - a.chance || (a.title < b.title ? -1 : 1));
