import type { Path } from '../document.ts';
import type { Branch, Leaf } from '../schema/family.ts';
import type { Rule } from './rule.ts';

const tolerance = 0.0101;

/** Siblings of a cause tree share a whole. */
export const sharesSum: Rule = {
  code: 'shares-do-not-sum',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, family] of content.families) {
      const visit = (nodes: readonly (Leaf | Branch)[], path: Path) => {
        const sum = nodes.reduce((total, node) => total + node.share, 0);
        if (Math.abs(sum - 1) > tolerance)
          report(
            'families',
            id,
            path,
            `The shares of these ${nodes.length} siblings sum to ${Number(sum.toFixed(4))} (${nodes.map((node) => node.share).join(' + ')}).`,
            'Make them sum to 1.',
            { atKey: true },
          );
        nodes.forEach((node, index) => {
          if ('branches' in node) visit(node.branches, [...path, index, 'branches']);
        });
      };
      visit(family.tree, ['tree']);
    }
  },
};
