/** Walking a cause tree. */
import type { Path } from './document.ts';
import type { Branch, Leaf } from './schema/family.ts';

export interface PlacedLeaf {
  readonly cause: string;
  /** Product of the normalised shares from the root: sums to 1 over the tree. */
  readonly share: number;
  readonly why?: string | undefined;
  /** Path of the leaf in the file. */
  readonly path: Path;
  /** Titles of the branches above it. */
  readonly under: readonly string[];
}

/** All leaves from left to right. */
export function leavesOf(nodes: readonly (Leaf | Branch)[], path: Path = ['tree'], share = 1, under: readonly string[] = []): PlacedLeaf[] {
  const sum = nodes.reduce((total, node) => total + node.share, 0);
  return nodes.flatMap((node, index) => {
    const own = (share * node.share) / sum;
    return 'branches' in node
      ? leavesOf(node.branches, [...path, index, 'branches'], own, [...under, node.title])
      : [{ cause: node.cause, share: own, why: node.why, path: [...path, index], under }];
  });
}
