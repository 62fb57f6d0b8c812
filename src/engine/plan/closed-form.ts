/**
 * Orders that are known in closed form. They solve special cases only; the planner uses them nowhere and is tested
 * against them. A job costs `cost` and, if it is the one, ends the work with chance `weight`.
 */
export interface Job {
  readonly weight: number;
  readonly cost: number;
}

/** A job that may only follow its parent (an index into the list; null: free). */
export interface TreeJob extends Job {
  readonly parent: number | null;
}

/** Smith's rule (1956): by falling weight / cost. Optimal for independent actions of which exactly one ends the work. */
export function smithOrder(jobs: readonly Job[]): number[] {
  const order = jobs.map((_, index) => index);
  return order.sort((a, b) => compareRatio(jobs[b] as Job, jobs[a] as Job) || a - b);
}

/**
 * Horn's algorithm (1972) for precedence in the form of out-trees, chains included, in O(n log n): the block with the
 * greatest weight / cost directly follows its parent's block, so the two are merged, until one block is left. A set-up
 * is a job of weight 0 that comes before the checks that need it.
 */
export function outTreeOrder(jobs: readonly TreeJob[]): number[] {
  const n = jobs.length;
  const root = n;
  const parent = [...jobs.map((job) => job.parent ?? root), -1];
  const weight = [...jobs.map((job) => job.weight), 0];
  const cost = [...jobs.map((job) => job.cost), 0];
  const next = new Int32Array(n + 1).fill(-1);
  const last = Int32Array.from({ length: n + 1 }, (_, i) => i);
  const merged = Int32Array.from({ length: n + 1 }, (_, i) => i);
  const head = (job: number): number => {
    let at = job;
    while (merged[at] !== at) {
      merged[at] = merged[merged[at] as number] as number;
      at = merged[at] as number;
    }
    return at;
  };
  const version = new Int32Array(n + 1);
  const heap = new Heap();
  const offer = (block: number): void =>
    heap.push({ block, version: version[block] as number, weight: weight[block] as number, cost: cost[block] as number });
  for (let job = 0; job < n; job++) offer(job);
  for (let top = heap.pop(); top; top = heap.pop()) {
    const { block } = top;
    if (merged[block] !== block || top.version !== version[block]) continue;
    const into = head(parent[block] as number);
    next[last[into] as number] = block;
    last[into] = last[block] as number;
    merged[block] = into;
    weight[into] = (weight[into] as number) + (weight[block] as number);
    cost[into] = (cost[into] as number) + (cost[block] as number);
    version[into] = (version[into] as number) + 1;
    if (into !== root) offer(into);
  }
  const order: number[] = [];
  for (let job = next[root] as number; job >= 0; job = next[job] as number) order.push(job);
  return order;
}

/** Expected cost of an order: each job is paid while the work goes on. */
export function orderCost(jobs: readonly Job[], order: readonly number[]): number {
  return prefixCosts(jobs, order, 0).at(-1) as number;
}

/**
 * Expected cost of doing the first k jobs of an order and then handing over, for k = 0 .. n. The weights may sum to less
 * than 1; what no job ends is handed over.
 */
export function prefixCosts(jobs: readonly Job[], order: readonly number[], handOverCost: number): number[] {
  let left = 1;
  let spent = 0;
  const costs = [handOverCost];
  for (const index of order) {
    const job = jobs[index] as Job;
    spent += left * job.cost;
    left -= job.weight;
    costs.push(spent + left * handOverCost);
  }
  return costs;
}

/**
 * The best number of jobs of an order before handing over, and its cost. All n + 1 prefixes are evaluated: the rule
 * "hand over when 1/S beats every p/c" stops too early (p = .5, .5, c = 6, 6, S = 10: it pays 10, the optimum is 9).
 */
export function bestPrefix(jobs: readonly Job[], order: readonly number[], handOverCost: number): { length: number; cost: number } {
  const costs = prefixCosts(jobs, order, handOverCost);
  let length = 0;
  costs.forEach((cost, k) => {
    if (cost < (costs[length] as number)) length = k;
  });
  return { length, cost: costs[length] as number };
}

/** Positive when a's weight / cost is the greater; no division, so that a cost of 0 is allowed. */
function compareRatio(a: Job, b: Job): number {
  return a.weight * b.cost - b.weight * a.cost;
}

interface Offer extends Job {
  readonly block: number;
  readonly version: number;
}

/** A binary heap with the greatest weight / cost on top. */
class Heap {
  private readonly items: Offer[] = [];

  push(item: Offer): void {
    const { items } = this;
    let at = items.push(item) - 1;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (!before(item, items[up] as Offer)) break;
      items[at] = items[up] as Offer;
      at = up;
    }
    items[at] = item;
  }

  pop(): Offer | undefined {
    const { items } = this;
    const top = items[0];
    const item = items.pop();
    if (!item || items.length === 0) return top;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= items.length) break;
      if (down + 1 < items.length && before(items[down + 1] as Offer, items[down] as Offer)) down++;
      if (!before(items[down] as Offer, item)) break;
      items[at] = items[down] as Offer;
      at = down;
    }
    items[at] = item;
    return top;
  }
}

function before(a: Offer, b: Offer): boolean {
  return compareRatio(a, b) > 0;
}
