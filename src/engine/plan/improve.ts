import { fixedWeight, type Instance, isOpen, markDone } from './instance.ts';
import { forcedChecks } from './known-cost.ts';
import { dot, MOST_TOGETHER, MoveEstimates } from './move-estimate.ts';
import { type Known, PolicyTrees, type TreeNode } from './policy-tree.ts';

export interface ImproverOptions {
  /** One pass each: states reached with less chance than this stay as they are, and follow the repair sequence where they are laid out anew. */
  readonly leastReach: readonly number[];
  /** Moves laid out and compared exactly at each state: the best few by estimate. */
  readonly tries: number;
  /** Times that one state may change in one pass. */
  readonly changes: number;
  /** Stop after so much work: nodes laid out and repair sequences made. */
  readonly mostWork: number;
  readonly stop?: (() => boolean) | undefined;
}

/** A change of the policy at one state: something else is done first, or what is done first is left out. */
interface Move {
  readonly kind: 'first' | 'leave-out' | 'sequence' | 'hand-over';
  /** Done first, in order. */
  readonly actions: readonly number[];
  /** Leave-out: the branch that stays. */
  readonly branch: number;
  readonly estimate: number;
}

const NO_ACTIONS: readonly number[] = [];

/** A change that adds a step must save this share of what the rest of the job costs; one that takes a step away need only not cost more. */
const WORTH = 1e-4;

/** Checks that share a set-up are weighed together only where the job likely gets: it takes as long as all other moves. */
const LIKELY = 0.1;

/**
 * Policy improvement: from the root down, at each state that is likely enough, every other first action is weighed
 * against the policy as it stands: a check or repair brought forward from further on or put in anew (a check with all
 * that must come before it, or with others that share its set-up), the first check left out, the repair sequence,
 * handing over. The best by estimate are laid out and compared exactly, so the cost never rises.
 */
export class Improver {
  readonly trees: PolicyTrees;
  private readonly instance: Instance;
  private readonly options: ImproverOptions;
  private readonly known: Known;
  private readonly forced: readonly (readonly number[])[];
  private readonly estimates: MoveEstimates;
  private readonly paid: Uint8Array;

  constructor(instance: Instance, options: ImproverOptions) {
    this.instance = instance;
    this.options = options;
    this.trees = new PolicyTrees(instance);
    this.trees.leastReach = options.leastReach[0] ?? 0;
    this.known = new Int16Array(instance.checks).fill(-1);
    this.forced = Array.from({ length: instance.handOver }, (_, action) => forcedChecks(instance, action));
    this.estimates = new MoveEstimates(instance, this.trees);
    this.paid = new Uint8Array(instance.statusLength);
  }

  run(start: TreeNode, status: Uint8Array): TreeNode {
    let root = start;
    this.collect(root);
    for (const least of this.options.leastReach) {
      this.trees.leastReach = least;
      root = this.improve(root, status);
      if (this.spent()) break;
    }
    return root;
  }

  private spent(): boolean {
    const { trees, options } = this;
    return trees.laidOut + trees.sequencer.made >= options.mostWork || (options.stop?.() ?? false);
  }

  private collect(node: TreeNode): void {
    this.remember(node);
    for (const child of node.next) if (child) this.collect(child);
  }

  private remember(node: TreeNode): void {
    if (node.action >= this.instance.checks) return;
    const list = this.estimates.library[node.action] as (TreeNode | null)[];
    node.next.forEach((child, o) => {
      if (child) list[o] = child;
    });
  }

  private improve(start: TreeNode, status: Uint8Array): TreeNode {
    const { instance, trees } = this;
    let node = start;
    if (node.reach < trees.leastReach || this.spent()) return node;
    for (let change = 0; change < this.options.changes && !this.spent(); change++) {
      const better = this.betterAt(node, status);
      if (!better) break;
      node = better;
    }
    if (node.list) {
      const opened = trees.expand(node, status);
      if (opened.value <= node.value * (1 + 1e-12)) node = opened;
    }
    if (node.action >= instance.handOver) return node;
    const nextStatus = status.slice();
    markDone(instance, nextStatus, node.action);
    for (let o = 0; o < node.next.length; o++) {
      const child = node.next[o];
      if (child) node.next[o] = this.improve(child, nextStatus);
    }
    trees.refresh(node);
    this.remember(node);
    return node;
  }

  private betterAt(node: TreeNode, status: Uint8Array): TreeNode | null {
    const moves = this.moves(node, status);
    moves.sort((a, b) => a.estimate - b.estimate);
    let best: TreeNode | null = null;
    for (let i = 0; i < this.options.tries && i < moves.length; i++) {
      const move = moves[i] as Move;
      if (best && move.estimate >= best.value) break;
      const made = this.make(move, node, status);
      if (made.value < (best ? best.value : limitOf(move.kind, node))) best = made;
    }
    return best;
  }

  private make(move: Move, node: TreeNode, status: Uint8Array): TreeNode {
    const { trees, known } = this;
    if (move.kind === 'first') return this.firstThen(move.actions, 0, node, node.belief, status);
    if (move.kind === 'sequence') return trees.sequence(node.belief, status);
    if (move.kind === 'hand-over') return trees.handOver(node.belief);
    return trees.graft(node.next[move.branch] as TreeNode, node.belief, status, known);
  }

  /** The actions of a move in turn, each result followed by the best of: the next one, the tree as it was, another branch. */
  private firstThen(actions: readonly number[], from: number, tree: TreeNode, belief: Float64Array, status: Uint8Array): TreeNode {
    const { instance, trees, known } = this;
    const action = actions[from] as number;
    return trees.step(action, belief, status, (after, next, outcome) => {
      const isCheck = action < instance.checks;
      let best = trees.sequence(after, next);
      const consider = (other: TreeNode): void => {
        if (other.value < best.value) best = other;
      };
      if (best.reach < trees.leastReach) return best;
      if (isCheck) known[action] = outcome;
      if (dot(tree.perHypothesis, after) < 1.1 * best.value || this.estimates.holds(action))
        consider(trees.graft(tree, after, next, known));
      const others = isCheck ? [(this.estimates.library[action] as (TreeNode | null)[])[outcome]] : [];
      if (isCheck && tree.action >= instance.checks) others.push(tree.next[0]);
      for (const other of others) {
        if (other && dot(other.perHypothesis, after) < best.value * (1 - WORTH)) consider(trees.graft(other, after, next, known));
      }
      if (from + 1 < actions.length) consider(this.firstThen(actions, from + 1, tree, after, next));
      if (isCheck) known[action] = -1;
      return best;
    });
  }

  /** The moves worth laying out, and perhaps a few more. */
  private moves(node: TreeNode, status: Uint8Array): Move[] {
    const { instance, trees, estimates } = this;
    const { belief } = node;
    const { tries } = this.options;
    const moves: Move[] = [];
    // The best estimates so far, so that no more is spent on a move than it takes to see that it is not among them.
    const bests = new Float64Array(tries).fill(limitOf('first', node));
    const enough = (): number => bests[tries - 1] as number;
    const add = (kind: Move['kind'], actions: readonly number[], branch: number, estimate: number): void => {
      if (estimate >= (kind === 'first' ? enough() : Math.max(enough(), limitOf(kind, node)))) return;
      moves.push({ kind, actions, branch, estimate });
      if (estimate >= enough()) return;
      let at = tries - 1;
      for (; at > 0 && (bests[at - 1] as number) > estimate; at--) bests[at] = bests[at - 1] as number;
      bests[at] = estimate;
    };
    estimates.survey(node, status);
    add('sequence', NO_ACTIONS, 0, node.list ? node.value : trees.sequencer.cost(belief, status, node.reach));
    add('hand-over', NO_ACTIONS, 0, node.reach * instance.handOverCost);
    if (node.action < instance.checks) {
      node.next.forEach((child, o) => {
        if (child) add('leave-out', NO_ACTIONS, o, dot(child.perHypothesis, belief));
      });
    }
    for (let repair = 0; repair < instance.repairs; repair++) {
      const action = instance.checks + repair;
      if (action === node.action || !isOpen(instance, status, action)) continue;
      if (fixedWeight(instance, belief, repair) < 1e-6 * node.reach) continue;
      add('first', [action], 0, estimates.ofRepair(repair, status));
    }
    for (let check = 0; check < instance.checks; check++) {
      const bundle = check === node.action ? null : this.withForced(check, status);
      if (!bundle) continue;
      const alone = estimates.ofChecks([check], status, enough());
      // A check that is not worth its own cost is not worth that of what comes before it too.
      if (bundle.length === 1) add('first', bundle, 0, alone);
      else if (alone < enough()) add('first', bundle, 0, estimates.ofChecks(bundle, status, enough()));
    }
    if (node.reach >= LIKELY) {
      for (const bundle of this.sharingSetUps(node, status)) {
        add('first', bundle, 0, estimates.ofChecks(bundle, status, enough()));
      }
    }
    return moves;
  }

  /** A check with all that must still come before it; null where it cannot be done. */
  private withForced(check: number, status: Uint8Array): readonly number[] | null {
    const { instance } = this;
    if ((status[check] as number) >= (instance.allowed[check] as number)) return null;
    const before = (this.forced[check] as readonly number[]).filter((other) => !status[instance.everAt + other]);
    return before.length < MOST_TOGETHER ? [...before, check] : null;
  }

  /** For each set-up not yet paid: the checks that would be worth doing were it paid, the best two together. */
  private sharingSetUps(node: TreeNode, status: Uint8Array): number[][] {
    const { instance, estimates, paid } = this;
    const limit = limitOf('first', node);
    const bundles: number[][] = [];
    for (let setUp = 0; setUp < instance.setUps; setUp++) {
      if (status[instance.paidAt + setUp] || (instance.setUpCost[setUp] as number) <= 0) continue;
      const worth: { check: number; estimate: number }[] = [];
      paid.set(status);
      paid[instance.paidAt + setUp] = 1;
      for (let check = 0; check < instance.checks; check++) {
        if (check === node.action || !isOpen(instance, status, check) || !(instance.setUpsOf[check] as Int32Array).includes(setUp))
          continue;
        const estimate = estimates.ofChecks([check], paid, limit);
        if (estimate < limit) worth.push({ check, estimate });
      }
      if (worth.length < 2) continue;
      worth.sort((a, b) => a.estimate - b.estimate || a.check - b.check);
      bundles.push(worth.slice(0, 2).map(({ check }) => check));
    }
    return bundles;
  }
}

/** What a move must come below. */
function limitOf(kind: Move['kind'], node: TreeNode): number {
  return kind === 'first' ? node.value * (1 - WORTH) : node.value * (1 - 1e-12);
}
