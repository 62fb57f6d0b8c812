/** A check as it tells two hypotheses apart. */
export interface TellingCheck {
  readonly check: number;
  /** Performances that are left. */
  readonly copies: number;
  /** What it costs in the world of the first and of the second hypothesis, undivided. */
  readonly priceFirst: number;
  readonly priceSecond: number;
  readonly likelihoodFirst: Float64Array;
  readonly likelihoodSecond: Float64Array;
}

/** Checks that a pair takes for one: each use costs as much as the cheapest and tells as much as the most telling of them. */
export interface CheckGroup {
  readonly members: readonly TellingCheck[];
  /** Performances of all members together. */
  readonly uses: number;
  readonly likelihoodFirst: Float64Array;
  readonly likelihoodSecond: Float64Array;
}

export interface Grouping {
  readonly paid: readonly CheckGroup[];
  /** Checks that are not worth a place: their results are given away. */
  readonly given: readonly CheckGroup[];
}

interface Candidate extends CheckGroup {
  /** What is lost already, in nats of what the members tell. */
  readonly loss: number;
}

/** Bits of a set of performances. */
const MOST_USES = 24;

/** Giving a check away loses as much as making it so many times as telling. */
const GIVEN_AWAY = 2;

/**
 * Groups checks until no more than `mostSets` counts of performances are left to tell apart (the product of uses + 1). Two groups at a
 * time become one, or one is given away: whichever loses least for what it saves.
 */
export function groupChecks(checks: readonly TellingCheck[], mostSets: number): Grouping {
  const { groups, given } = mostTelling(checks);
  const mergers = new Mergers();
  while (sets(groups) > mostSets) {
    const { a, b } = leastLoss(groups, mergers);
    const one = groups[a] as Candidate;
    if (b === null) {
      given.push(...one.members.map(single));
      groups.splice(a, 1);
    } else {
      groups[a] = mergers.of(one, groups[b] as Candidate);
      groups.splice(b, 1);
    }
  }
  return { paid: groups, given };
}

/** Each check by itself, the most telling first, as long as their uses fit in a set. */
function mostTelling(checks: readonly TellingCheck[]): { groups: Candidate[]; given: Candidate[] } {
  const groups: Candidate[] = [];
  const given: Candidate[] = [];
  let uses = 0;
  for (const group of checks.map(single).sort((a, b) => tells(b) - tells(a) || numberOf(a) - numberOf(b))) {
    if (uses + group.uses > MOST_USES) given.push(group);
    else {
      groups.push(group);
      uses += group.uses;
    }
  }
  return { groups, given };
}

function sets(groups: readonly CheckGroup[]): number {
  return groups.reduce((product, { uses }) => product * (uses + 1), 1);
}

/** The two groups to merge, or the one to give away (b null), by loss for each factor e that it saves. */
function leastLoss(groups: readonly Candidate[], mergers: Mergers): { a: number; b: number | null } {
  let least = Number.POSITIVE_INFINITY;
  let change: { a: number; b: number | null } = { a: 0, b: null };
  groups.forEach((one, a) => {
    const away = (GIVEN_AWAY * one.uses * tells(one)) / Math.log(one.uses + 1);
    if (away < least) {
      least = away;
      change = { a, b: null };
    }
    for (let b = a + 1; b < groups.length; b++) {
      const other = groups[b] as Candidate;
      const both = mergers.of(one, other);
      const lost = (both.loss - one.loss - other.loss) / Math.log(((one.uses + 1) * (other.uses + 1)) / (both.uses + 1));
      if (lost >= least) continue;
      least = lost;
      change = { a, b };
    }
  });
  return change;
}

/** Groups made of two, kept: most are asked for again at the next step. */
class Mergers {
  private readonly made = new Map<Candidate, Map<Candidate, Candidate>>();

  of(a: Candidate, b: Candidate): Candidate {
    const row = this.made.get(a) ?? new Map<Candidate, Candidate>();
    if (row.size === 0) this.made.set(a, row);
    const both = row.get(b) ?? merged(a, b);
    row.set(b, both);
    return both;
  }
}

function single(check: TellingCheck): Candidate {
  const { likelihoodFirst, likelihoodSecond, copies } = check;
  return { members: [check], uses: copies, likelihoodFirst, likelihoodSecond, loss: 0 };
}

function numberOf(group: CheckGroup): number {
  return group.members[0]?.check ?? 0;
}

function merged(a: Candidate, b: Candidate): Candidate {
  const members = [...a.members, ...b.members];
  const { likelihoodFirst, likelihoodSecond } = join(a, b);
  const group = { members, uses: a.uses + b.uses, likelihoodFirst, likelihoodSecond };
  const strength = tells(group);
  const leastFirst = Math.min(...members.map(({ priceFirst }) => priceFirst));
  const leastSecond = Math.min(...members.map(({ priceSecond }) => priceSecond));
  let loss = 0;
  for (const member of members) {
    const own = tells(member);
    const dearer = Math.log2(((member.priceFirst + 1) * (member.priceSecond + 1)) / ((leastFirst + 1) * (leastSecond + 1)));
    loss += member.copies * (strength - own + 0.5 * own * dearer);
  }
  return { ...group, loss };
}

/** Bhattacharyya coefficient of the outcomes under the two hypotheses: 1 tells nothing. */
export function affinityOf({ likelihoodFirst, likelihoodSecond }: Likelihoods): number {
  let affinity = 0;
  for (let o = 0; o < likelihoodFirst.length; o++) {
    affinity += Math.sqrt((likelihoodFirst[o] as number) * (likelihoodSecond[o] as number));
  }
  return affinity;
}

/** How much a check tells, in nats; at most 5. */
function tells(check: Likelihoods): number {
  return Math.min(5, -Math.log(Math.max(affinityOf(check), 1e-9)));
}

type Likelihoods = Pick<CheckGroup, 'likelihoodFirst' | 'likelihoodSecond'>;

/**
 * The least telling experiment that tells at least as much as either: the upper concave hull of both receiver operating
 * characteristics, whose edges are its outcomes (two hypotheses: Blackwell 1953, Torgersen 1991).
 */
function join(a: Likelihoods, b: Likelihoods): Likelihoods {
  const points = [...curve(a), ...curve(b)].sort((p, q) => p.second - q.second || p.first - q.first);
  const hull: Point[] = [];
  for (const point of points) {
    while (hull.length >= 2) {
      const last = hull[hull.length - 1] as Point;
      const before = hull[hull.length - 2] as Point;
      const turn =
        (last.second - before.second) * (point.first - before.first) - (last.first - before.first) * (point.second - before.second);
      if (turn < -1e-15) break;
      hull.pop();
    }
    const last = hull[hull.length - 1];
    if (last && point.second - last.second < 1e-15 && point.first - last.first < 1e-15) continue;
    hull.push(point);
  }
  const edges = hull.length - 1;
  const likelihoodFirst = new Float64Array(edges);
  const likelihoodSecond = new Float64Array(edges);
  for (let e = 0; e < edges; e++) {
    likelihoodFirst[e] = (hull[e + 1] as Point).first - (hull[e] as Point).first;
    likelihoodSecond[e] = (hull[e + 1] as Point).second - (hull[e] as Point).second;
  }
  return { likelihoodFirst, likelihoodSecond };
}

/** Chance under the first and the second hypothesis of the outcomes that speak most for the first. */
interface Point {
  readonly first: number;
  readonly second: number;
}

function curve({ likelihoodFirst, likelihoodSecond }: Likelihoods): Point[] {
  const outcomes = Array.from(likelihoodFirst, (first, o) => ({ first, second: likelihoodSecond[o] as number }));
  outcomes.sort((p, q) => q.first * p.second - p.first * q.second);
  const points: Point[] = [{ first: 0, second: 0 }];
  let first = 0;
  let second = 0;
  for (const outcome of outcomes) {
    first += outcome.first;
    second += outcome.second;
    points.push({ first: Math.min(1, first), second: Math.min(1, second) });
  }
  points[points.length - 1] = { first: 1, second: 1 };
  return points;
}
