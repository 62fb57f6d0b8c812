import { type CostedPolicy, GreedyPlanner } from './greedy.ts';
import { fixedWeight, type Instance, isOpen, markDone, removeFixed, stepCost, updateByOutcome } from './instance.ts';
import { scale } from './list-policy.ts';
import type { PolicyNode } from './model.ts';
import type { PairBound } from './pair-bound.ts';
import { RepairSequencer } from './repair-sequence.ts';
import { StateTable } from './state-table.ts';

/** A state of the search: a belief (sum 1) and a status, with bounds on the least expected cost from here. */
interface SearchNode {
  readonly belief: Float64Array;
  readonly status: Uint8Array;
  lower: number;
  upper: number;
  options: Option[] | null;
}

/** An action at a node. Children are made when it is first followed. */
interface Option {
  readonly action: number;
  readonly cost: number;
  lower: number;
  upper: number;
  /** By outcome (a repair: one, the fault still there); null where the chance is 0. */
  children: (SearchNode | null)[] | null;
  weights: Float64Array | null;
}

/** What is left to prove, relative to the upper bound, at which a state counts as solved. */
const SOLVED = 1e-10;

/**
 * AO*-like search from the root: follow the action with the least lower bound, in it the branch that contributes most
 * to what is unproven (chance x gap), expand the state reached, and carry both bounds back. States reached by the same
 * results in another order are one. Bounds hold at any time, so it may stop at any time.
 */
export class Search {
  nodes = 0;
  private steps = 0;
  readonly root: SearchNode;
  private readonly instance: Instance;
  private readonly bound: PairBound;
  private readonly candidates: Int32Array;
  private readonly sequencer: RepairSequencer;
  private readonly table = new StateTable<SearchNode>();
  private readonly child: Float64Array;
  private readonly childStatus: Uint8Array;

  constructor(instance: Instance, belief: Float64Array, status: Uint8Array, bound: PairBound) {
    this.instance = instance;
    this.bound = bound;
    this.sequencer = new RepairSequencer(instance);
    this.child = new Float64Array(instance.hypotheses);
    this.childStatus = new Uint8Array(instance.statusLength);
    this.candidates = candidates(instance, belief);
    bound.prepare(status);
    this.root = this.makeNode(belief, status, bound.value(belief));
  }

  get solved(): boolean {
    return isSolved(this.root);
  }

  /** Searches until solved or stopped. */
  run(mostNodes: number, stop?: () => boolean): void {
    while (
      !isSolved(this.root) &&
      this.nodes < mostNodes &&
      this.steps < 4 * mostNodes + 100 &&
      !(stop && (this.nodes & 15) === 0 && stop())
    )
      this.step();
  }

  private step(): void {
    const path: SearchNode[] = [];
    let node: SearchNode = this.root;
    // By turns: where the optimum may still hide (least lower bound), and where the best policy known can be improved.
    const improves = this.steps++ % 3 === 2;
    while (node.options) {
      path.push(node);
      const option = improves ? likelyBest(node) : mostPromising(node);
      if (!option) break;
      if (!option.children) this.makeChildren(node, option);
      const next = mostUnproven(option);
      if (!next) break;
      node = next;
    }
    if (!node.options) {
      this.expand(node);
      path.push(node);
    }
    for (let i = path.length - 1; i >= 0; i--) this.backUp(path[i] as SearchNode);
  }

  private expand(node: SearchNode): void {
    const { instance, bound, child, childStatus } = this;
    this.nodes++;
    bound.prepare(node.status);
    const options: Option[] = [];
    for (const action of this.candidates) {
      if (!isOpen(instance, node.status, action)) continue;
      const cost = stepCost(instance, node.status, action);
      if (cost >= node.upper) continue;
      childStatus.set(node.status);
      markDone(instance, childStatus, action);
      bound.prepareAfter(action, childStatus);
      let lower = cost;
      let upper = cost;
      if (action >= instance.checks) {
        child.set(node.belief);
        const fixed = removeFixed(instance, child, action - instance.checks);
        if (fixed <= 1e-14) {
          bound.restore();
          continue;
        }
        lower += bound.value(child);
        if (lower < node.upper) upper += this.sequencer.cost(child, childStatus, sumOf(child));
      } else {
        const outcomes = instance.outcomes[action] as number;
        for (let o = 0; o < outcomes && lower < node.upper; o++) {
          if (updateByOutcome(instance, node.belief, action, o, child) > 0) lower += bound.value(child);
        }
        for (let o = 0; o < outcomes && lower < node.upper; o++) {
          const weight = updateByOutcome(instance, node.belief, action, o, child);
          if (weight > 0) upper += this.sequencer.cost(child, childStatus, weight);
        }
      }
      bound.restore();
      if (lower >= node.upper) continue;
      options.push({ action, cost, lower, upper, children: null, weights: null });
    }
    node.options = options;
  }

  private backUp(node: SearchNode): void {
    let lower = this.instance.handOverCost;
    let { upper } = node;
    for (const option of node.options as Option[]) {
      if (option.children) {
        let low = option.cost;
        let high = option.cost;
        for (let o = 0; o < option.children.length; o++) {
          const child = option.children[o];
          if (!child) continue;
          const weight = (option.weights as Float64Array)[o] as number;
          low += weight * child.lower;
          high += weight * child.upper;
        }
        option.lower = Math.max(option.lower, low);
        option.upper = Math.min(option.upper, high);
      }
      if (option.lower < lower) lower = option.lower;
      if (option.upper < upper) upper = option.upper;
    }
    node.upper = upper;
    node.lower = Math.max(node.lower, Math.min(lower, upper));
    const options = node.options as Option[];
    let kept = 0;
    for (const option of options) if (option.lower < upper || option.upper <= upper) options[kept++] = option;
    options.length = kept;
  }

  private makeChildren(node: SearchNode, option: Option): void {
    const { instance, bound } = this;
    const { action } = option;
    const status = node.status.slice();
    markDone(instance, status, action);
    const isCheck = action < instance.checks;
    const count = isCheck ? (instance.outcomes[action] as number) : 1;
    const weights = new Float64Array(count);
    const children: (SearchNode | null)[] = [];
    let prepared = false;
    for (let o = 0; o < count; o++) {
      const belief = node.belief.slice();
      if (isCheck) updateByOutcome(instance, belief, action, o, belief);
      else removeFixed(instance, belief, action - instance.checks);
      const weight = scale(belief);
      weights[o] = weight;
      if (weight <= 0) {
        children.push(null);
        continue;
      }
      const known = this.table.get(belief, status);
      if (known) {
        children.push(known);
        continue;
      }
      if (!prepared) bound.prepare(status);
      prepared = true;
      children.push(this.makeNode(belief, status, bound.value(belief)));
    }
    option.children = children;
    option.weights = weights;
  }

  private makeNode(belief: Float64Array, status: Uint8Array, lower: number): SearchNode {
    const upper = this.sequencer.cost(belief, status, 1);
    const node: SearchNode = { belief, status, lower: Math.min(lower, upper), upper, options: null };
    this.table.set(belief, status, node);
    return node;
  }

  /** The best policy known: the search's own where it went, the greedy one past that (branches as likely as `fine`). */
  policy(fine: number): CostedPolicy {
    return this.policyFrom(this.root, 1, new GreedyPlanner(this.instance, fine, Number.POSITIVE_INFINITY));
  }

  private policyFrom(node: SearchNode, reach: number, greedy: GreedyPlanner): CostedPolicy {
    const { instance } = this;
    if (!node.options) return greedy.build(node.belief, node.status, reach);
    let best: Option | null = null;
    for (const option of node.options) if (option.upper <= node.upper * (1 + 1e-12) && (!best || option.upper < best.upper)) best = option;
    if (!best) return greedy.build(node.belief, node.status, reach);
    if (!best.children) this.makeChildren(node, best);
    let cost = best.cost;
    const next = (best.children as (SearchNode | null)[]).map((child, o) => {
      if (!child) return null;
      const weight = (best.weights as Float64Array)[o] as number;
      const after = this.policyFrom(child, reach * weight, greedy);
      cost += weight * after.cost;
      return after.node;
    });
    const isCheck = best.action < instance.checks;
    const made: PolicyNode = isCheck
      ? { kind: 'check', action: best.action, cost: best.cost, next }
      : { kind: 'repair', action: best.action - instance.checks, cost: best.cost, next: next[0] ?? null };
    return { node: made, cost };
  }
}

function mostPromising(node: SearchNode): Option | null {
  let best: Option | null = null;
  for (const option of node.options as Option[]) if (!best || option.lower < best.lower) best = option;
  return best;
}

function likelyBest(node: SearchNode): Option | null {
  let best: Option | null = null;
  for (const option of node.options as Option[]) if (!best || promise(option) < promise(best)) best = option;
  return best;
}

/** Between the bounds, nearer the lower: that is where the optimum mostly lies. */
function promise(option: Option): number {
  return option.lower + 0.25 * (option.upper - option.lower);
}

function isSolved(node: SearchNode): boolean {
  return node.upper - node.lower <= SOLVED * node.upper;
}

function mostUnproven(option: Option): SearchNode | null {
  let best: SearchNode | null = null;
  let most = 0;
  const children = option.children as (SearchNode | null)[];
  for (let o = 0; o < children.length; o++) {
    const child = children[o];
    if (!child || isSolved(child)) continue;
    const unproven = ((option.weights as Float64Array)[o] as number) * (child.upper - child.lower);
    if (unproven > most) {
      most = unproven;
      best = child;
    }
  }
  return best;
}

function sumOf(belief: Float64Array): number {
  let sum = 0;
  for (let h = 0; h < belief.length; h++) sum += belief[h] as number;
  return sum;
}

/** Actions that can be of use: checks that tell something apart or that something must come after, repairs that can fix. */
function candidates(instance: Instance, belief: Float64Array): Int32Array {
  const needed = new Set(instance.afterOf.flatMap((list) => [...list]));
  const kept: number[] = [];
  for (let action = 0; action < instance.handOver; action++) {
    if (action >= instance.checks) {
      if (fixedWeight(instance, belief, action - instance.checks) > 0) kept.push(action);
    } else if (needed.has(action) || tellsApart(instance, belief, action)) kept.push(action);
  }
  return Int32Array.from(kept);
}

function tellsApart(instance: Instance, belief: Float64Array, check: number): boolean {
  const n = instance.hypotheses;
  const possible = belief.findIndex((weight) => weight > 0);
  const at = instance.likelihoodAt[check] as number;
  for (let o = 0; o < (instance.outcomes[check] as number); o++) {
    const chance = instance.likelihood[at + o * n + possible] as number;
    for (let h = 0; h < n; h++) {
      if ((belief[h] as number) > 0 && Math.abs((instance.likelihood[at + o * n + h] as number) - chance) > 1e-12) return true;
    }
  }
  return false;
}
