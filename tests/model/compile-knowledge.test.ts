import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Knowledge } from '../../src/engine/knowledge.ts';
import { compileKnowledge } from '../../src/model/compile-knowledge.ts';
import { loadContent } from '../../src/model/load.ts';
import { leavesOf } from '../../src/model/tree.ts';
import { goodFiles, goodText, overlay } from './bad-content.ts';

const compiled = (files = goodFiles): Knowledge => compileKnowledge(loadContent(files).content, 'hash');
const sum = (row: readonly number[]) => row.reduce((total, chance) => total + chance, 0);

describe('compiled knowledge', () => {
  const knowledge = compiled();

  it('has shares that sum to one minus the remainder, multiplied down the tree', () => {
    const family = knowledge.families['rough-idle']!;
    expect(sum(Object.values(family.shares))).toBeCloseTo(1 - family.remainder, 12);
    expect(family.shares['split-hose']).toBeCloseTo(0.4 * 0.95, 12);
  });

  it('has rows over all outcomes that sum to one', () => {
    for (const check of Object.values(knowledge.checks))
      for (const row of [check.otherwise, ...Object.values(check.likelihood)]) {
        expect(row).toHaveLength(check.outcomes.length);
        expect(sum(row)).toBeCloseTo(1, 12);
      }
  });

  it('has pattern rows and scope mixtures that sum to one', () => {
    for (const scope of Object.values(knowledge.scopes)) {
      expect(sum(Object.values(scope.cylinderPatterns))).toBeCloseTo(1, 12);
      expect(sum(Object.values(scope.bankPatterns))).toBeCloseTo(1, 12);
    }
    for (const cause of Object.values(knowledge.causes)) expect(sum(Object.values(cause.scope))).toBeCloseTo(1, 2);
  });

  it('prices a repair by its consumables and the middle of each price range', () => {
    // Four plugs at 5 to 15 dollars and 2 dollars of consumables.
    expect(knowledge.causes['worn-plugs']!.repair.money).toBe(4 * 10 + 2);
  });

  it('is plain JSON without prose, sorted, and independent of the order of the files', () => {
    const bytes = JSON.stringify(knowledge);
    expect(JSON.parse(bytes)).toEqual(knowledge);
    expect(bytes).not.toContain('Rubber hardens');
    expect(JSON.stringify(compiled([...goodFiles].reverse()))).toBe(bytes);
    expect(Object.keys(knowledge.causes)).toEqual(['split-hose', 'worn-plugs']);
  });

  it('gives shares that sum to one minus the remainder for any tree', () => {
    const share = fc.integer({ min: 1, max: 100 });
    fc.assert(
      fc.property(share, share, fc.double({ min: 0.005, max: 0.5, noNaN: true }), (a, b, remainder) => {
        const first = Number((a / (a + b)).toFixed(3));
        const text = goodText('content/families/rough-idle.yaml')
          .replace('share: 0.4', `share: ${Math.max(0.001, first)}`)
          .replace('share: 0.6', `share: ${Math.max(0.001, Number((1 - first).toFixed(3)))}`)
          .replace('remainder: 0.05', `remainder: ${remainder}`);
        const { families } = compiled(overlay(goodFiles, [{ path: 'content/families/rough-idle.yaml', text }]));
        expect(sum(Object.values(families['rough-idle']!.shares))).toBeCloseTo(1 - remainder, 12);
      }),
      { seed: 13, numRuns: 40 },
    );
  });
});

describe('the leaves of a tree', () => {
  it('normalise shares that sum to about one, and say where they stand', () => {
    const leaves = leavesOf([
      {
        title: 'Air',
        share: 0.5,
        branches: [
          { cause: 'a', share: 0.3 },
          { cause: 'b', share: 0.3 },
        ],
      },
      { cause: 'c', share: 0.51 },
    ]);
    expect(sum(leaves.map((leaf) => leaf.share))).toBeCloseTo(1, 12);
    expect(leaves.map((leaf) => [leaf.cause, leaf.under, leaf.path.join('.')])).toEqual([
      ['a', ['Air'], 'tree.0.branches.0'],
      ['b', ['Air'], 'tree.0.branches.1'],
      ['c', [], 'tree.1'],
    ]);
    expect(leaves[0]!.share).toBeCloseTo(0.5 / 1.01 / 2, 12);
  });
});
