import { describe, expect, it } from 'vitest';
import { evaluatePolicy, type TroubleshootingModel } from '../../../src/engine/plan/index.ts';
import { compileInstance, startStatus } from '../../../src/engine/plan/instance.ts';
import { PairBound } from '../../../src/engine/plan/pair-bound.ts';
import { Search } from '../../../src/engine/plan/search.ts';
import { bareCheck, bareModel, bareRepair, soleRepair } from './bare-model.ts';
import { bruteForce } from './brute-force.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

/** Two causes of equal chance, each with a repair of 50: 75 by repairs alone. */
const TWO = { ...bareModel, prior: [0.5, 0.5], repairs: [soleRepair(0, 2, 50), soleRepair(1, 2, 50)] };
const perfect = (cost: number) => bareCheck('perfect', cost, [[1, 0], [0, 1]]); // biome-ignore format: a matrix
const coin = (cost: number) => bareCheck('coin', cost, [[0.5, 0.5], [0.5, 0.5]]); // biome-ignore format: a matrix

/** What the root offers: each action with its own cost and the bounds of doing it first. */
const offered = (search: Search) => search.root.options?.map(({ action, cost, lower, upper }) => ({ action, cost, lower, upper }));

describe('the search', () => {
  it('begins between the bound and the repair sequence', () => {
    const { search, bound } = started({ ...TWO, checks: [perfect(4)] });
    expect(search.nodes).toBe(0);
    expect(search.root.upper).toBeCloseTo(75, 12);
    expect(search.root.lower).toBeCloseTo(bound, 12);
    expect(search.solved).toBe(false);
    expect(search.root.options).toBeNull();
  });

  it('looks at what each action leads to, one state after another', () => {
    const { search } = started({ ...TWO, checks: [perfect(4)] });
    search.run(1);
    expect(search.nodes).toBe(1);
    // The check leaves one repair on either side: 4 + 50, exactly. Repairs first cost at least 50 and what is left after that.
    expect(search.root.upper).toBeCloseTo(54, 9);
    expect(offered(search)?.[0]).toMatchObject({ action: 0, cost: 4 });
    expect(offered(search)?.[0]?.upper).toBeCloseTo(54, 9);
    search.run(50);
    expect(search.solved).toBe(true);
    expect(search.root.lower).toBeCloseTo(54, 9);
    const { node, cost } = search.policy(0.001);
    expect(cost).toBeCloseTo(54, 9);
    expect(node).toMatchObject({ kind: 'check', action: 0, cost: 4, next: [{ kind: 'repair', action: 0 }, { kind: 'repair', action: 1 }] }); // biome-ignore format: one line reads better
  });

  it('does not look at checks that tell nothing among the causes that are left, unless another waits for them', () => {
    const waiting = { ...perfect(4), after: [1] };
    const { search } = started({ ...TWO, checks: [perfect(4), coin(1), coin(2)] });
    search.run(1);
    expect(offered(search)?.some(({ action }) => action === 1 || action === 2)).toBe(false);
    const needed = started({ ...TWO, checks: [waiting, coin(1), coin(2)] }).search;
    needed.run(1);
    expect(offered(needed)?.map(({ action }) => action)).toContain(1);
    expect(offered(needed)?.map(({ action }) => action)).not.toContain(2);
    needed.run(100);
    expect(needed.root.lower).toBeCloseTo(55, 9);
    // Each tells one cause from the two others, and that one has no chance.
    for (const impossible of [0, 1, 2]) {
      const rows = [0, 1, 2].map((h) => (h === impossible ? [0, 1] : [1, 0]));
      const useful = [0, 1, 2].map((h) => (h === (impossible === 0 ? 1 : 0) ? [1, 0] : [0, 1]));
      const prior = [0, 1, 2].map((h) => (h === impossible ? 0 : 0.5));
      const checks = [bareCheck('useless', 1, rows), bareCheck('useful', 4, useful)];
      const without = started({ ...bareModel, prior, checks, repairs: [0, 1, 2].map((h) => soleRepair(h, 3, 50)) }).search;
      without.run(1);
      expect(offered(without)?.map(({ action }) => action)).toContain(1);
      expect(offered(without)?.map(({ action }) => action)).not.toContain(0);
    }
  });

  it('does not look at repairs that can fix nothing that is left, nor at what costs as much as the best known', () => {
    const repairs = [soleRepair(0, 3, 50), soleRepair(1, 3, 50), soleRepair(2, 3, 1), bareRepair('dear', 80, [1, 1, 1])];
    const { search } = started({ ...bareModel, prior: [0.5, 0.5, 0], checks: [], repairs });
    search.run(1);
    expect(offered(search)?.some(({ action }) => action >= 2) ?? false).toBe(false);
  });

  it('is over at once where the bound meets the repair sequence', () => {
    const { search } = started({ ...bareModel, prior: [1], checks: [], repairs: [soleRepair(0, 1, 50)] });
    expect(search.solved).toBe(true);
    search.run(100);
    expect(search.nodes).toBe(0);
    expect(search.policy(0.001)).toEqual({ node: { kind: 'repair', action: 0, cost: 50, next: null }, cost: 50 });
  });

  it('makes a repair first where that is cheapest, and checks after it', () => {
    // 5 for the likelier cause; only if it fails does a look for 4 spare one of two repairs of 100.
    const which = bareCheck('which', 4, [[0.5, 0.5], [1, 0], [0, 1]]); // biome-ignore format: a matrix
    const repairs = [soleRepair(0, 3, 5), soleRepair(1, 3, 100), soleRepair(2, 3, 100)];
    const { search } = started({ ...bareModel, prior: [0.6, 0.2, 0.2], checks: [which], repairs });
    search.run(200);
    expect(search.solved).toBe(true);
    expect(search.policy(0.001)).toEqual({
      node: {
        kind: 'repair',
        action: 0,
        cost: 5,
        next: {
          kind: 'check',
          action: 0,
          cost: 4,
          next: [
            { kind: 'repair', action: 1, cost: 100, next: null },
            { kind: 'repair', action: 2, cost: 100, next: null },
          ],
        },
      },
      cost: expect.closeTo(5 + 0.4 * (4 + 100), 9),
    });
  });

  it('hands over where that is cheapest', () => {
    const { search } = started({ ...TWO, checks: [perfect(4)], handOverCost: 20 });
    search.run(100);
    expect(search.policy(0.001)).toEqual({ node: { kind: 'hand-over', cost: 20 }, cost: 20 });
  });

  it('takes the same results in another order for one state', () => {
    // Two looks of equal price in either order: after both there are four states, not eight.
    const model = {
      ...bareModel,
      prior: [0.25, 0.25, 0.25, 0.25],
      checks: [
        bareCheck('half', 3, [[0.9, 0.1], [0.9, 0.1], [0.1, 0.9], [0.1, 0.9]]), // biome-ignore format: a matrix
        bareCheck('odd', 3, [[0.9, 0.1], [0.1, 0.9], [0.9, 0.1], [0.1, 0.9]]), // biome-ignore format: a matrix
      ],
      repairs: [0, 1, 2, 3].map((h) => soleRepair(h, 4, 50)),
    };
    const { search } = started(model);
    search.run(400);
    const seen = new Set<object>();
    const both = new Set<object>();
    const walk = (node: typeof search.root): void => {
      if (seen.has(node)) return;
      seen.add(node);
      if (node.status[0] && node.status[1] && !node.status.slice(4, 8).includes(1)) both.add(node);
      for (const option of node.options ?? []) for (const child of option.children ?? []) if (child) walk(child);
    };
    walk(search.root);
    expect(both.size).toBeLessThanOrEqual(4);
    expect(seen.size).toBeGreaterThan(4);
  });

  it('asks whether to stop before every sixteenth state, and stops', () => {
    const { search } = started(smallModel(seeded(3), 4));
    let asked = 0;
    search.run(1000, () => {
      asked++;
      return asked > 2;
    });
    expect(search.nodes).toBe(32);
    expect(asked).toBe(3);
  });

  it('never loosens a bound as it goes on, and keeps the optimum between them', () => {
    for (let start = 1; start <= 40; start++) {
      const model = smallModel(seeded(start));
      const optimum = bruteForce(model);
      const { search } = started(model);
      let { lower, upper } = search.root;
      for (let nodes = 1; nodes < 60 && !search.solved; nodes++) {
        search.run(nodes);
        expect(search.root.lower).toBeGreaterThanOrEqual(lower);
        expect(search.root.upper).toBeLessThanOrEqual(upper);
        ({ lower, upper } = search.root);
        expect(lower, `model ${start}`).toBeLessThan(optimum + 1e-7);
        expect(upper, `model ${start}`).toBeGreaterThan(optimum - 1e-7);
        const { node, cost } = search.policy(0.01);
        expect(cost, `model ${start}`).toBeLessThan(upper + 1e-9);
        expect(evaluatePolicy(model, node), `model ${start}`).toBeCloseTo(cost, 8);
      }
    }
  });
});

function started(model: TroubleshootingModel) {
  const instance = compileInstance(model);
  const belief = Float64Array.from(model.prior);
  const status = startStatus(instance);
  const pairs = new PairBound(instance, belief, status, { mostPairs: 20, mostSets: 16 });
  const bound = pairs.tune(belief, status, 3);
  return { search: new Search(instance, belief, status, pairs), bound };
}
