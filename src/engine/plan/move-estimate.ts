import { type Instance, markDone, stepCost, updateByOutcome } from './instance.ts';
import { KnownCosts } from './known-cost.ts';
import { afterRepair, type PolicyTrees, type TreeNode } from './policy-tree.ts';

/**
 * A check whose telling rows belong to less than this share of the chance can save no more than these hypotheses cost
 * above their least: for the others, the tree is near the best already. A rule of thumb; moves are compared exactly.
 */
const RARE = 0.2;

/** A result as likely as this leaves the job much as it was: to begin anew with the repair sequence is not looked into there. */
const LIKELY = 0.7;

/** Actions brought forward together at most: a check and what must come before it. */
export const MOST_TOGETHER = 3;

/**
 * What a policy tree would cost if something else were done first, estimated from the cost of its parts in the world of
 * each hypothesis: exact but for set-ups paid elsewhere and changes of engine state. Bringing a check forward saves where
 * its result, known earlier, leads past steps in between; where everything comes back good, little changes.
 */
export class MoveEstimates {
  private readonly instance: Instance;
  private readonly trees: PolicyTrees;
  private readonly knownCosts: KnownCosts;
  private readonly rows: readonly SparseRows[];
  /** The last branch that followed each result of each check, wherever it stood. */
  readonly library: (TreeNode | null)[][];
  private readonly nodesOf: TreeNode[][];
  private readonly met: number[] = [];
  /** What paying a set-up at the surveyed root would save further on. */
  private readonly setUpPaid: Float64Array;
  private readonly omniscient: Float64Array;
  private readonly levels: readonly Level[];
  private root: TreeNode | null = null;
  private knownAtRoot = 0;

  constructor(instance: Instance, trees: PolicyTrees) {
    this.instance = instance;
    this.trees = trees;
    this.knownCosts = new KnownCosts(instance);
    this.rows = Array.from({ length: instance.checks }, (_, check) => sparseRows(instance, check));
    this.library = Array.from({ length: instance.checks }, (_, check) => new Array(instance.outcomes[check] as number).fill(null));
    this.nodesOf = Array.from({ length: instance.handOver }, () => []);
    this.setUpPaid = new Float64Array(instance.setUps);
    this.omniscient = new Float64Array(instance.hypotheses);
    this.levels = Array.from({ length: MOST_TOGETHER }, () => makeLevel(instance));
  }

  /** Notes where in the tree each action stands and which set-ups are paid there. */
  survey(root: TreeNode, status: Uint8Array): void {
    for (const action of this.met) (this.nodesOf[action] as TreeNode[]).length = 0;
    this.met.length = 0;
    this.setUpPaid.fill(0);
    this.root = root;
    this.visit(root);
    const { omniscient } = this;
    for (let h = 0; h < omniscient.length; h++) {
      const weight = root.belief[h] as number;
      omniscient[h] = weight > 0 ? this.knownCosts.of(h, status) : 0;
    }
    this.knownAtRoot = dot(omniscient, root.belief);
  }

  private visit(node: TreeNode): void {
    if (node.action >= this.instance.handOver) return;
    const list = this.nodesOf[node.action] as TreeNode[];
    if (list.length === 0) this.met.push(node.action);
    list.push(node);
    for (const setUp of node.pays) {
      this.setUpPaid[setUp] = (this.setUpPaid[setUp] as number) + node.reach * (this.instance.setUpCost[setUp] as number);
    }
    for (const child of node.next) if (child) this.visit(child);
  }

  /** Whether an action stands somewhere in the tree surveyed. */
  holds(action: number): boolean {
    return (this.nodesOf[action] as TreeNode[]).length > 0;
  }

  /** What is saved further on when this action pays its set-ups now, other than by the action itself. */
  private setUpsSaved(action: number, status: Uint8Array): number {
    const { instance } = this;
    let saved = 0;
    const setUps = instance.setUpsOf[action] as Int32Array;
    if (setUps.length === 0) return 0;
    for (let i = 0; i < setUps.length; i++) {
      const setUp = setUps[i] as number;
      if (!status[instance.paidAt + setUp]) saved += this.setUpPaid[setUp] as number;
    }
    if (saved === 0) return 0;
    for (const at of this.nodesOf[action] as TreeNode[]) {
      for (const setUp of at.pays) if (!status[instance.paidAt + setUp]) saved -= at.reach * (instance.setUpCost[setUp] as number);
    }
    return saved;
  }

  /** Cost of making a repair at the surveyed root first. */
  ofRepair(repair: number, status: Uint8Array): number {
    const { instance } = this;
    const root = this.root as TreeNode;
    const action = instance.checks + repair;
    const left = afterRepair(instance, root.belief, repair);
    let rest = dot(root.perHypothesis, left) - this.setUpsSaved(action, status);
    for (const at of this.nodesOf[action] as TreeNode[]) {
      const after = at.next[0]?.perHypothesis;
      const leftThere = afterRepair(instance, at.belief, repair);
      for (let h = 0; h < left.length; h++) {
        rest += (leftThere[h] as number) * ((after ? (after[h] as number) : 0) - (at.perHypothesis[h] as number));
      }
    }
    return root.reach * stepCost(instance, status, action) + rest;
  }

  /** Cost of doing these checks at the surveyed root first, each as long as the results before leave it worth doing. */
  ofChecks(checks: readonly number[], status: Uint8Array, enough: number): number {
    const root = this.root as TreeNode;
    return this.estimate(checks, 0, root.belief, root.reach, root.perHypothesis, root.value, status, enough);
  }

  /** What going on as the tree does costs after each result of a check, with that result known. */
  private goOn(
    check: number,
    depth: number,
    belief: Float64Array,
    reach: number,
    going: Float64Array,
    value: number,
    isLast: boolean,
  ): Level {
    const { instance } = this;
    const root = this.root as TreeNode;
    const n = instance.hypotheses;
    const level = this.levels[depth] as Level;
    const there = this.nodesOf[check] as TreeNode[];
    const { usual, least, exceptions } = this.rows[check] as SparseRows;
    let exceptional = 0;
    for (let i = 0; i < exceptions.length; i++) exceptional += belief[exceptions[i] as number] as number;
    const isRare = isLast && exceptional < RARE * reach;
    const knownNow = depth === 0 ? this.knownAtRoot : dot(this.omniscient, belief);
    for (let o = 0; o < (instance.outcomes[check] as number); o++) {
      const row = (instance.likelihoodAt[check] as number) + o * n;
      const chance = usual[o] as number;
      let goes = value * chance;
      let after = reach * chance;
      let known = knownNow * chance;
      let surplus = 0;
      for (let i = 0; i < exceptions.length; i++) {
        const h = exceptions[i] as number;
        const extra = (belief[h] as number) * ((instance.likelihood[row + h] as number) - chance);
        goes += extra * (going[h] as number);
        after += extra;
        known += extra * (this.omniscient[h] as number);
        surplus +=
          (belief[h] as number) * (instance.likelihood[row + h] as number) * ((going[h] as number) - (this.omniscient[h] as number));
      }
      let on = going;
      if (there.length > 0) {
        on = level.ons[o] as Float64Array;
        on.set(going);
        for (let t = 0; t < there.length; t++) {
          const at = there[t] as TreeNode;
          const then = at.next[o]?.perHypothesis;
          for (let h = 0; h < n; h++) {
            const here = root.belief[h] as number;
            if (here <= 0) continue;
            const rest = then ? (then[h] as number) : instance.handOverCost;
            const saves = ((at.belief[h] as number) / here) * (rest - (at.perHypothesis[h] as number));
            on[h] = (on[h] as number) + saves;
            goes += (belief[h] as number) * (instance.likelihood[row + h] as number) * saves;
          }
        }
      }
      level.goings[o] = on;
      level.goes[o] = goes;
      level.reach[o] = after;
      level.known[o] = known;
      let room = goes - known;
      // The tree is about the best for the belief as it is: of the result, only what is beyond a share of that can gain.
      if (isLast) room -= (least[o] as number) * (value - knownNow);
      if (isRare) room = Math.min(room, surplus);
      level.room[o] = Math.max(0, room);
    }
    level.isRare = isRare;
    return level;
  }

  private estimate(
    checks: readonly number[],
    depth: number,
    belief: Float64Array,
    reach: number,
    going: Float64Array,
    value: number,
    status: Uint8Array,
    enough: number,
  ): number {
    const { instance, trees } = this;
    const root = this.root as TreeNode;
    const check = checks[depth] as number;
    const isLast = depth + 1 >= checks.length;
    const level = this.goOn(check, depth, belief, reach, going, value, isLast);
    const outcomes = instance.outcomes[check] as number;
    let total = reach * stepCost(instance, status, check) - this.setUpsSaved(check, status);
    let likeliest = 0;
    let room = 0;
    for (let o = 0; o < outcomes; o++) {
      total += level.goes[o] as number;
      room += level.room[o] as number;
      if ((level.reach[o] as number) > (level.reach[likeliest] as number)) likeliest = o;
    }
    // Where everything comes back good, a check on rare causes leaves the rest of the job as it was.
    const stays = level.isRare ? likeliest : -1;
    if (stays >= 0) room -= level.room[stays] as number;
    // Even knowing the cause after the telling results would not pay for the check.
    if (total - room >= enough) return total;
    // The result may leave no sense in the repair that the tree begins with.
    const withoutFirst = root.action >= instance.checks ? root.next[0]?.perHypothesis : undefined;
    const nextStatus = level.status;
    nextStatus.set(status);
    markDone(instance, nextStatus, check);
    let isPrepared = false;
    for (let o = 0; o < outcomes; o++) {
      const after = level.reach[o] as number;
      if (after <= 0 || o === stays) continue;
      const goes = level.goes[o] as number;
      let best = goes;
      room -= level.room[o] as number;
      // What the others can save at most is not enough unless this one comes below.
      const needed = enough - (total - goes - room);
      const least = goes - (level.room[o] as number);
      if (needed <= least) return total;
      if (least >= goes) continue;
      const below = Math.min(goes, needed);
      const posterior = level.posteriors[o] as Float64Array;
      updateByOutcome(instance, belief, check, o, posterior);
      const kept = (this.library[check] as (TreeNode | null)[])[o];
      if (kept) best = Math.min(best, dot(kept.perHypothesis, posterior));
      if (withoutFirst) best = Math.min(best, dot(withoutFirst, posterior));
      if (o !== likeliest || !isLast || root.list || after < LIKELY * reach) {
        if (!isPrepared) trees.sequencer.prepare(nextStatus);
        isPrepared = isLast;
        best = Math.min(best, trees.sequencer.costPrepared(posterior, after, Math.min(best, below)));
      }
      if (!isLast) {
        best = Math.min(
          best,
          this.estimate(checks, depth + 1, posterior, after, level.goings[o] as Float64Array, goes, nextStatus, Math.min(best, below)),
        );
      }
      total += best - goes;
      if (total - room >= enough) return total;
    }
    return total;
  }
}

/** Room for the results of one check. */
interface Level {
  isRare: boolean;
  readonly status: Uint8Array;
  readonly posteriors: readonly Float64Array[];
  readonly ons: readonly Float64Array[];
  readonly goings: Float64Array[];
  readonly goes: Float64Array;
  readonly reach: Float64Array;
  readonly known: Float64Array;
  readonly room: Float64Array;
}

function makeLevel(instance: Instance): Level {
  const vectors = (): Float64Array[] => Array.from({ length: instance.mostOutcomes }, () => new Float64Array(instance.hypotheses));
  return {
    isRare: false,
    status: new Uint8Array(instance.statusLength),
    posteriors: vectors(),
    ons: vectors(),
    goings: [],
    goes: new Float64Array(instance.mostOutcomes),
    reach: new Float64Array(instance.mostOutcomes),
    known: new Float64Array(instance.mostOutcomes),
    room: new Float64Array(instance.mostOutcomes),
  };
}

/** A check tells few hypotheses apart: the row that most of them share, and the hypotheses with another one. */
interface SparseRows {
  readonly usual: Float64Array;
  /** By outcome, its chance under the hypothesis that makes it least likely. */
  readonly least: Float64Array;
  readonly exceptions: Int32Array;
}

function sparseRows(instance: Instance, check: number): SparseRows {
  const n = instance.hypotheses;
  const outcomes = instance.outcomes[check] as number;
  const rowOf = (h: number) =>
    Array.from({ length: outcomes }, (_, o) => instance.likelihood[(instance.likelihoodAt[check] as number) + o * n + h] as number);
  const groups = new Map<string, number[]>();
  for (let h = 0; h < n; h++) {
    const key = rowOf(h).join();
    const group = groups.get(key);
    if (group) group.push(h);
    else groups.set(key, [h]);
  }
  let most: number[] = [];
  for (const group of groups.values()) if (group.length > most.length) most = group;
  const usual = new Set(most);
  const exceptions = Array.from({ length: n }, (_, h) => h).filter((h) => !usual.has(h));
  const all = Array.from({ length: n }, (_, h) => rowOf(h));
  const least = Float64Array.from({ length: outcomes }, (_, o) => Math.min(...all.map((row) => row[o] as number)));
  return { least, usual: Float64Array.from(rowOf(most[0] ?? 0)), exceptions: Int32Array.from(exceptions) };
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}
