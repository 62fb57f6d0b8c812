/** The likely part of a computed order as a small tree: what the flowchart draws and the list beside it says. */
import type { Formulation } from '../engine/formulate.ts';
import type { Knowledge } from '../engine/knowledge.ts';
import type { PolicyNode } from '../engine/plan/index.ts';
import { afterCheck, afterFailedRepair, at, type Job, mass, startJob } from '../engine/plan/job.ts';
import { address } from './address.ts';

export interface FlowBranch {
  /** The result that leads here: title of an outcome, or "not fixed". */
  readonly label: string;
  readonly chance: number;
  /** On the path that the job takes while nothing is found. */
  readonly spine: boolean;
  /** Null: too rare to draw; a job works it out when it comes to that. */
  readonly to: FlowNode | null;
}

export interface FlowNode {
  /** Stable: the kind and id of the work, numbered when it stands in several branches. */
  readonly key: string;
  readonly kind: 'check' | 'repair' | 'hand-over';
  readonly id: string;
  readonly title: string;
  readonly href: string | null;
  /** Chance, seen from the start, that the job gets here. */
  readonly chance: number;
  readonly spine: boolean;
  readonly branches: readonly FlowBranch[];
}

/** Boxes of one flowchart: more do not fit a page or an eye. */
export const mostNodes = 22;
/** Branches less likely than this are not drawn. */
export const leastChance = 0.008;

/** What a flow needs of a formulation: the problem, and the ids behind its indices. */
export type FlowProblem = Pick<Formulation, 'model' | 'checkIds' | 'repairIds'>;

interface Draft {
  readonly node: PolicyNode;
  readonly job: Job;
  readonly chance: number;
  readonly spine: boolean;
  readonly branches: { label: string; chance: number; spine: boolean; to: Draft | null; node: PolicyNode; job: Job }[];
}

/** Grows the tree from its root, the likeliest branch first, until it has `most` boxes. Deterministic. */
export function flowOf(formulation: FlowProblem, policy: PolicyNode, knowledge: Knowledge, most = mostNodes): FlowNode {
  const { model } = formulation;
  const open: { draft: Draft; branch: Draft['branches'][number] }[] = [];
  const drafted = (node: PolicyNode, job: Job, spine: boolean): Draft => {
    const draft: Draft = { node, job, chance: mass(job), spine, branches: [] };
    for (const { label, next, after, onSpine } of branchesOf(node, job)) {
      const chance = mass(after);
      if (!next || chance <= 0) continue;
      const branch = { label, chance, spine: spine && onSpine, to: null, node: next, job: after };
      draft.branches.push(branch);
      if (chance >= leastChance) open.push({ draft, branch });
    }
    return draft;
  };
  const branchesOf = (node: PolicyNode, job: Job) => {
    if (node.kind === 'hand-over') return [];
    if (node.kind === 'repair')
      return [{ label: 'not fixed', next: node.next, after: afterFailedRepair(model, job, node.action), onSpine: true }];
    const after = afterCheck(model, job, node.action);
    const masses = after.map(mass);
    const likeliest = masses.indexOf(Math.max(...masses));
    const { outcomes } = knowledge.checks[formulation.checkIds[node.action]!]!;
    return after.map((next, outcome) => ({
      label: at(outcomes, outcome).title,
      next: node.next[outcome] ?? null,
      after: next,
      onSpine: outcome === likeliest,
    }));
  };

  const root = drafted(policy, startJob(model), true);
  for (let boxes = 1; boxes < most && open.length > 0; boxes += 1) {
    let best = 0;
    open.forEach(({ branch }, index) => {
      if (branch.chance > open[best]!.branch.chance + 1e-12) best = index;
    });
    const [{ branch }] = open.splice(best, 1) as [(typeof open)[number]];
    branch.to = drafted(branch.node, branch.job, branch.spine);
  }

  const used = new Map<string, number>();
  const finished = (draft: Draft): FlowNode => {
    const { kind, id, title, href } = nameOf(draft.node, formulation, knowledge);
    const name = kind === 'hand-over' ? kind : `${kind}-${id}`;
    const times = (used.get(name) ?? 0) + 1;
    used.set(name, times);
    return {
      key: times === 1 ? name : `${name}-${times}`,
      kind,
      id,
      title,
      href,
      chance: draft.chance,
      spine: draft.spine,
      branches: draft.branches.map((branch) => ({
        label: branch.label,
        chance: branch.chance,
        spine: branch.spine,
        to: branch.to ? finished(branch.to) : null,
      })),
    };
  };
  return finished(root);
}

function nameOf(node: PolicyNode, formulation: FlowProblem, knowledge: Knowledge) {
  if (node.kind === 'hand-over') return { kind: node.kind, id: 'hand-over', title: 'Hand over to a professional', href: null };
  if (node.kind === 'check') {
    const id = formulation.checkIds[node.action]!;
    return { kind: node.kind, id, title: knowledge.checks[id]!.title, href: address('checks', id) };
  }
  const id = formulation.repairIds[node.action]!;
  return { kind: node.kind, id, title: knowledge.causes[id]!.repair.title, href: address('causes', id) };
}

/** All boxes of a flow from top to bottom. */
export function flowNodes(root: FlowNode): readonly FlowNode[] {
  return [root, ...root.branches.flatMap((branch) => (branch.to ? flowNodes(branch.to) : []))];
}
