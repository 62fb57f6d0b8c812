import { describe, expect, it } from 'vitest';
import { evaluatePolicy, type PolicyNode, plan, type TroubleshootingModel } from '../../../src/engine/plan/index.ts';
import { compileInstance, markDone, startStatus } from '../../../src/engine/plan/instance.ts';
import { listPolicy, scale } from '../../../src/engine/plan/list-policy.ts';
import { afterRepair, type Known, likeliest, PolicyTrees, sumOf, type TreeNode } from '../../../src/engine/plan/policy-tree.ts';
import { RepairSequencer } from '../../../src/engine/plan/repair-sequence.ts';
import { bareCheck, bareModel, bareRepair, soleRepair } from './bare-model.ts';
import { placesOf, restOf } from './places.ts';
import { check, repair } from './policy-nodes.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

const plans = Array.from({ length: 40 }, (_, i) => i + 1);

describe('a policy as a tree', () => {
  it('says what the policy costs, in the world of each hypothesis and in all', () => {
    for (const start of plans) {
      const { model, policy, root } = planAsTree(start);
      expect(root.value).toBeCloseTo(evaluatePolicy(model, policy), 9);
      expect(root.reach).toBeCloseTo(1, 12);
      model.prior.forEach((_, h) => {
        const known = { ...model, prior: model.prior.map((_, other) => (other === h ? 1 : 0)) };
        expect(root.perHypothesis[h], `model ${start}, hypothesis ${h}`).toBeCloseTo(evaluatePolicy(known, policy), 8);
      });
    }
  });

  it('reads back as the policy that it was read from', () => {
    for (const start of plans) {
      const { policy, trees, root, status } = planAsTree(start);
      expect(trees.asPolicy(root, status), `model ${start}`).toEqual(policy);
    }
  });

  it('is the same tree where it is laid out anew at its own place', () => {
    for (const start of plans) {
      const { model, policy, trees, root, status } = planAsTree(start);
      const again = trees.graft(root, root.belief, status, nothingKnown(model));
      expect(again.value).toBeCloseTo(root.value, 9);
      expect(trees.asPolicy(again, status), `model ${start}`).toEqual(policy);
    }
  });

  it('has in each node its part of the cost: its own and that of its children, weighted by the chance to get there', () => {
    for (const start of plans.slice(0, 20)) {
      const { root } = planAsTree(start);
      visit(root, (node) => {
        const children = node.next.filter((child) => child !== null);
        if (children.length === 0) return;
        expect(node.value).toBeCloseTo(node.reach * node.cost + children.reduce((sum, child) => sum + child.value, 0), 9);
        expect(node.reach).toBeCloseTo(sumOf(node.belief), 12);
      });
    }
  });

  it('notes at each step the set-ups that it is the first to pay', () => {
    const repairs = [
      { ...soleRepair(0, 2, 20), setUps: [0, 1] },
      { ...soleRepair(1, 2, 30), setUps: [1, 2] },
    ];
    const model = { ...bareModel, prior: [0.5, 0.5], repairs, setUpCosts: [1, 2, 4], setUpsDone: [0] };
    const { trees, root } = asTree(model, repair(0, 22, repair(1, 34, null)));
    expect(root.pays).toEqual([1]);
    expect(root.next[0]?.pays).toEqual([2]);
    expect(root.cost).toBe(22);
    expect(root.next[0]?.cost).toBe(34);
    expect(root.value).toBeCloseTo(22 + 0.5 * 34, 12);
    // Two repairs that surely end the job: two nodes.
    expect(trees.laidOut).toBe(2);
  });
});

describe('a repair sequence as a leaf', () => {
  it('costs what its policy costs, in the world of each hypothesis too, wherever a job may stand', () => {
    let long = 0;
    for (let start = 1; start <= 100; start++) {
      const random = seeded(start);
      for (const place of placesOf(smallModel(random, start % 3), random, 4)) {
        const { instance, belief, status } = place;
        const here = restOf(place);
        if (!here) continue;
        const trees = new PolicyTrees(instance);
        const weighted = belief.map((weight) => weight / 2);
        const leaf = trees.sequence(weighted, status);
        const policy = trees.asPolicy(leaf, status);
        expect(leaf.reach).toBeCloseTo(0.5, 12);
        expect(leaf.value).toBeCloseTo(0.5 * evaluatePolicy(here, policy), 9);
        leaf.perHypothesis.forEach((cost, h) => {
          if ((belief[h] as number) <= 0) return;
          const known = belief.map((_, other) => (other === h ? 1 : 0));
          expect(cost, `model ${start}`).toBeCloseTo(evaluatePolicy({ ...here, prior: [...known] }, policy), 8);
        });
        if ((leaf.list?.length ?? 0) > 1) long++;
      }
    }
    expect(long).toBeGreaterThan(50);
  });

  it('is handing over where no repair pays', () => {
    const { trees, belief, status } = atStart({ ...bareModel, prior: [1], repairs: [soleRepair(0, 1, 80)], handOverCost: 50 });
    const leaf = trees.sequence(belief, status);
    expect(leaf).toMatchObject({ action: 1, cost: 50, reach: 1, value: 50, next: [] });
    expect(leaf.list).toBeUndefined();
    expect([...leaf.perHypothesis]).toEqual([50]);
    expect(trees.asPolicy(leaf, status)).toEqual({ kind: 'hand-over', cost: 50 });
  });

  it('opens into its first action, with sequences of their own after each result', () => {
    const { trees, belief, status } = atStart(threeCauses());
    const leaf = trees.sequence(belief, status);
    expect([...(leaf.list as Int32Array)]).toEqual([2, 3, 4]);
    const opened = trees.expand(leaf, status);
    expect(opened).toMatchObject({ action: 2, cost: 40 });
    expect(opened.value).toBeCloseTo(leaf.value, 12);
    expect(opened.next[0]?.list).toEqual(Int32Array.of(3, 4));
  });

  it('is cut into a policy at which what cannot happen has no branch', () => {
    // The look must come before the only repair; its second result never comes up.
    const look = bareCheck('look', 2, [[1, 0], [1, 0]]); // biome-ignore format: a matrix
    const model = { ...bareModel, prior: [0.6, 0.4], checks: [look], repairs: [{ ...bareRepair('both', 30, [1, 0.5]), after: [0] }] };
    const { trees, belief, status } = atStart({ ...model, handOverCost: 100 });
    const leaf = trees.sequence(belief, status);
    expect(leaf.value).toBeCloseTo(2 + 30 + 0.2 * 100, 12);
    expect(trees.asPolicy(leaf, status)).toEqual(check(0, 2, [repair(0, 30, { kind: 'hand-over', cost: 100 }), null]));
  });
});

describe('a tree laid out at another place', () => {
  it('goes straight to what follows a result that is known', () => {
    const { model, trees, root, belief, status } = laidOut();
    const known = nothingKnown(model);
    known[0] = 1;
    const made = trees.graft(root, belief, status, known);
    // Past the first check, to the branch of its second result: the second check.
    expect(trees.asPolicy(made, status)).toMatchObject({ kind: 'check', action: 1 });
    expect([...known]).toEqual([1, -1]);
  });

  it('leaves a repair out that was tried or can fix nothing there', () => {
    const { model, trees, root, belief, status } = laidOut();
    const branch = root.next[0] as TreeNode;
    expect(branch.action).toBe(2);
    const tried = status.slice();
    markDone(compileInstance(model), tried, 2);
    const left = Float64Array.of(0, belief[1] as number, belief[2] as number);
    expect(trees.asPolicy(trees.graft(branch, left, tried, nothingKnown(model)), tried)).toMatchObject({ kind: 'repair', action: 1 });
    expect(trees.asPolicy(trees.graft(branch, left, status, nothingKnown(model)), status)).toMatchObject({ kind: 'repair', action: 1 });
  });

  it('takes the likeliest branch of a check that cannot be done there', () => {
    const { model, trees, root, belief, status } = laidOut();
    const done = status.slice();
    markDone(compileInstance(model), done, 0);
    // 0.5 of the first cause and a tenth of the others lead to the first result, 0.45 to the second.
    expect(trees.asPolicy(trees.graft(root, belief, done, nothingKnown(model)), done)).toMatchObject({ kind: 'repair', action: 0 });
  });

  it('follows the repair sequence where there is no tree, where the tree has no branch, and where it is reached too rarely', () => {
    const { model, trees, root, belief, status } = laidOut();
    const bySequence = trees.sequence(belief, status);
    expect(trees.graft(null, belief, status, nothingKnown(model)).list).toEqual(bySequence.list);
    trees.leastReach = 1.01;
    expect(trees.graft(root, belief, status, nothingKnown(model)).list).toEqual(bySequence.list);
    trees.leastReach = 1;
    expect(trees.graft(root, belief, status, nothingKnown(model)).list).toBeUndefined();
    const certain = asTree(model, check(0, 2, [repair(0, 40, null), null]));
    const known = nothingKnown(model);
    known[0] = 1;
    expect(certain.trees.graft(certain.root, belief, status, known).list).toEqual(bySequence.list);
  });

  it('hands over where the tree hands over', () => {
    const { trees, root, belief, status } = asTree(threeCauses(), { kind: 'hand-over', cost: 300 });
    expect(trees.graft(root, belief, status, nothingKnown(threeCauses()))).toMatchObject({ action: 5, value: 300 });
  });

  it('uses a known result of a check that may be done twice for one of the two, and does the other', () => {
    const model = threeCauses();
    const twice = { ...model, checks: model.checks.map((c, i) => (i === 0 ? { ...c, repeats: true, maxPerformances: 2 } : c)) };
    const first = repair(0, 40, repair(1, 50, repair(2, 60, null)));
    const again = check(0, 2, [first, repair(1, 50, repair(2, 60, repair(0, 40, null)))]);
    const { trees, root, belief, status } = asTree(twice, check(0, 2, [first, again]));
    const once = status.slice();
    markDone(compileInstance(twice), once, 0);
    const known = nothingKnown(twice);
    known[0] = 1;
    const made = trees.asPolicy(trees.graft(root, belief, once, known), once);
    expect(made).toMatchObject({ kind: 'check', action: 0, next: [{ kind: 'repair', action: 0 }, { kind: 'repair', action: 1 }] }); // biome-ignore format: one line reads better
    expect([...known]).toEqual([1, -1]);
  });

  it('forgets a known result once a repair has spoiled it, and knows it again elsewhere', () => {
    const model = threeCauses();
    const spoiling = { ...model, repairs: model.repairs.map((r, i) => (i === 0 ? { ...r, spoils: [0] } : r)) };
    const rest = check(0, 2, [repair(1, 50, repair(2, 60, null)), repair(2, 60, repair(1, 50, null))]);
    const { trees, root, belief, status } = asTree(spoiling, repair(0, 40, rest));
    const known = nothingKnown(spoiling);
    known[0] = 0;
    const done = status.slice();
    markDone(compileInstance(spoiling), done, 0);
    const made = trees.graft(root, Float64Array.of(0.25, 0.5, 0.25), done, known);
    expect(trees.asPolicy(made, done)).toMatchObject({ kind: 'repair', action: 0, next: { kind: 'check', action: 0 } });
    expect([...known]).toEqual([0, -1]);
    // Where the repair spoils nothing, the result still holds behind it.
    const plain = asTree(model, repair(0, 40, rest));
    const straight = plain.trees.asPolicy(plain.trees.graft(plain.root, belief, done, known), done);
    expect(straight).toMatchObject({ kind: 'repair', action: 0, next: { kind: 'repair', action: 1 } });
  });

  it('counts its nodes as work', () => {
    const { model, trees, root, belief, status } = laidOut();
    const before = trees.laidOut;
    trees.graft(root, belief, status, nothingKnown(model));
    let nodes = 0;
    visit(root, () => nodes++);
    expect(trees.laidOut - before).toBe(nodes);
  });
});

describe('reading a policy in', () => {
  it('follows the repair sequence below the least chance, and where the policy has no branch', () => {
    const model = threeCauses();
    const { trees, belief, status } = atStart(model);
    const policy = check(0, 2, [repair(0, 40, null), null]);
    const root = trees.fromPolicy(policy, belief, status);
    // The first result leaves some of the other causes: after the repair their sequence follows.
    expect(root.next[0]?.next[0]?.list).toEqual(Int32Array.of(3, 4));
    expect(root.next[1]?.list?.length).toBeGreaterThan(0);
    trees.leastReach = 0.6;
    expect(trees.fromPolicy(policy, belief, status).next[0]?.list?.length).toBe(3);
    trees.leastReach = 1.01;
    expect(trees.fromPolicy(policy, belief, status).list?.length).toBe(3);
    expect(trees.fromPolicy({ kind: 'hand-over', cost: 300 }, belief, status).action).toBe(5);
  });

  it('shares the sequencer that it is given', () => {
    const { instance, belief, status } = atStart(threeCauses());
    const sequencer = new RepairSequencer(instance);
    new PolicyTrees(instance, sequencer).sequence(belief, status);
    expect(sequencer.made).toBe(1);
  });
});

describe('helpers of trees', () => {
  it('a list of actions as a policy pays each set-up once and leaves the belief that it is given as it was', () => {
    const repairs = [0, 1].map((h) => ({ ...soleRepair(h, 2, 20), setUps: [0] }));
    const { instance, status } = atStart({ ...bareModel, prior: [0.5, 0.5], repairs, setUpCosts: [10] });
    const belief = Float64Array.of(1, 3);
    expect(listPolicy(instance, Int32Array.of(0, 1), 0, belief, status)).toEqual(repair(0, 30, repair(1, 20, null)));
    expect([...belief]).toEqual([1, 3]);
    expect(listPolicy(instance, Int32Array.of(0, 1), 1, belief, status)).toEqual(repair(1, 30, { kind: 'hand-over', cost: 1000 }));
  });

  it('scaling brings a belief to the sum of 1 and tells the sum before; nothing stays nothing', () => {
    const belief = Float64Array.of(1, 3);
    expect(scale(belief)).toBe(4);
    expect([...belief]).toEqual([0.25, 0.75]);
    const nothing = new Float64Array(2);
    expect(scale(nothing)).toBe(0);
    expect([...nothing]).toEqual([0, 0]);
  });

  it('a failed repair leaves each cause the share that it does not fix', () => {
    const model = { ...bareModel, prior: [0.5, 0.3, 0.2], repairs: [bareRepair('part', 10, [1, 0.25, 0])] };
    const left = afterRepair(compileInstance(model), Float64Array.of(0.5, 0.4, 0.1), 0);
    expect([...left]).toEqual([0, 0.4 * 0.75, 0.1]);
  });

  it('the likeliest branch is the first of the likeliest, and none where there are none', () => {
    const { root } = laidOut();
    expect(likeliest(root)).toBe(root.next[0]);
    const second = asTree({ ...threeCauses(), prior: [0.5, 0.3, 0.2] }, check(1, 3, [repair(0, 40, null), repair(0, 40, null)]));
    expect(likeliest(second.root)).toBe(second.root.next[1]);
    expect(likeliest({ ...root, next: [] })).toBeNull();
    expect(likeliest({ ...root, next: [null, root] })).toBe(root);
    expect(likeliest({ ...root, next: [root, { ...root }] })).toBe(root);
  });
});

/** Three causes; the first check tells the first one from the others, the second check the second from the third. */
function threeCauses(): TroubleshootingModel {
  return {
    ...bareModel,
    prior: [0.5, 0.3, 0.2],
    checks: [
      bareCheck('first', 2, [[1, 0], [0.1, 0.9], [0.1, 0.9]]), // biome-ignore format: a matrix
      bareCheck('second', 3, [[0.5, 0.5], [0, 1], [1, 0]]), // biome-ignore format: a matrix
    ],
    repairs: [soleRepair(0, 3, 40), soleRepair(1, 3, 50), soleRepair(2, 3, 60)],
    handOverCost: 300,
  };
}

function laidOut() {
  const inOrder = (...order: number[]): PolicyNode | null =>
    order.reduceRight<PolicyNode | null>((next, action) => repair(action, 40 + 10 * action, next), null);
  const second = check(1, 3, [inOrder(2, 1, 0) as PolicyNode, inOrder(1, 2, 0) as PolicyNode]);
  return asTree(threeCauses(), check(0, 2, [inOrder(0, 1, 2) as PolicyNode, second]));
}

function atStart(model: TroubleshootingModel) {
  const instance = compileInstance(model);
  return { model, instance, trees: new PolicyTrees(instance), belief: Float64Array.from(model.prior), status: startStatus(instance) };
}

function asTree(model: TroubleshootingModel, policy: PolicyNode) {
  const start = atStart(model);
  return { ...start, policy, root: start.trees.fromPolicy(policy, start.belief, start.status) };
}

function planAsTree(start: number) {
  const model = smallModel(seeded(start), start % 3);
  return asTree(model, plan(model, { nodes: 12 }).policy);
}

function visit(node: TreeNode, look: (node: TreeNode) => void): void {
  look(node);
  for (const child of node.next) if (child) visit(child, look);
}

const nothingKnown = (model: TroubleshootingModel): Known => new Int16Array(model.checks.length).fill(-1);
