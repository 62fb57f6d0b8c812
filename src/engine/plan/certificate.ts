import { evaluatePolicy } from './evaluate.ts';
import { afterCheck, afterFailedRepair, at, costNow, type Job, mass, startJob } from './job.ts';
import type { Plan, PolicyNode, TroubleshootingModel } from './model.ts';

/** Raised when a bound turns out to be wrong, so that what it has certified lapses. */
const PROOF_VERSION = 2;

/** A plan found with a long budget, to be kept in a file. It holds for exactly the model that it was made for. */
export interface Certificate {
  /** Fingerprint of the model: see `modelFingerprint`. */
  readonly model: string;
  readonly proofVersion: number;
  readonly expectedCost: number;
  readonly lowerBound: number;
  readonly nodes: number;
  /** The policy, node before branches: see `encodePolicy`. */
  readonly policy: string;
}

export function certify(model: TroubleshootingModel, made: Plan): Certificate {
  const { expectedCost, lowerBound, nodes } = made;
  return {
    model: modelFingerprint(model),
    proofVersion: PROOF_VERSION,
    expectedCost,
    lowerBound,
    nodes,
    policy: encodePolicy(made.policy),
  };
}

/**
 * The plan of a certificate, or null when it was made for another model or its policy does not cost what it says. The
 * cost is worked out anew; only the lower bound is taken on trust.
 */
export function planFrom(certificate: Certificate, model: TroubleshootingModel): Plan | null {
  if (certificate.proofVersion !== PROOF_VERSION || certificate.model !== modelFingerprint(model)) return null;
  try {
    const policy = decodePolicy(certificate.policy, model);
    const expectedCost = evaluatePolicy(model, policy);
    const { lowerBound, nodes } = certificate;
    if (Math.abs(expectedCost - certificate.expectedCost) > 1e-6 * expectedCost || lowerBound > expectedCost * (1 + 1e-9)) return null;
    return { policy, expectedCost, lowerBound, gap: Math.max(0, (expectedCost - lowerBound) / lowerBound), nodes };
  } catch {
    // A policy that cannot be read or breaks a rule of the model certifies nothing.
    return null;
  }
}

/** 106 bits (two runs of cyrb53, public domain, from memory) of the model's numbers in a fixed order, ids left out. */
export function modelFingerprint(model: TroubleshootingModel): string {
  const text = JSON.stringify([
    model.prior,
    model.checks.map((c) => [c.cost, c.setUps, c.after, c.engineState, c.likelihood, c.repeats, c.maxPerformances]),
    model.repairs.map((r) => [r.cost, r.setUps, r.after, r.engineState, r.fixes, r.spoils]),
    model.setUpCosts,
    [model.handOverCost, model.coolDownCost, model.warmUpCost, model.startsWarm],
    [model.setUpsDone, model.checksDone, model.repairsTried],
  ]);
  return `${hash53(text, 1)}${hash53(text, 2)}`;
}

function hash53(text: string, start: number): string {
  let a = 0xdeadbeef ^ start;
  let b = 0x41c6ce57 ^ start;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    a = Math.imul(a ^ unit, 2654435761);
    b = Math.imul(b ^ unit, 1597334677);
  }
  a = Math.imul(a ^ (a >>> 16), 2246822507) ^ Math.imul(b ^ (b >>> 13), 3266489909);
  b = Math.imul(b ^ (b >>> 16), 2246822507) ^ Math.imul(a ^ (a >>> 13), 3266489909);
  return (4294967296 * (2097151 & b) + (a >>> 0)).toString(16).padStart(14, '0');
}

/** A policy as words: `c3` check 3 and one branch for each outcome, `r2` repair 2 and what follows, `h` hand over, `-` nothing. */
export function encodePolicy(node: PolicyNode | null): string {
  const words: string[] = [];
  const write = (at: PolicyNode | null): void => {
    if (!at) words.push('-');
    else if (at.kind === 'hand-over') words.push('h');
    else if (at.kind === 'repair') {
      words.push(`r${at.action}`);
      write(at.next);
    } else {
      words.push(`c${at.action}`);
      at.next.forEach(write);
    }
  };
  write(node);
  return words.join(' ');
}

/** Reads what `encodePolicy` wrote; the cost of each step is worked out from the model. @throws on a word out of place. */
export function decodePolicy(text: string, model: TroubleshootingModel): PolicyNode {
  const words = text.split(' ');
  let position = 0;
  const read = (job: Job): PolicyNode | null => {
    const word = at(words, position++);
    if (word === '-') return null;
    if (word === 'h') return { kind: 'hand-over', cost: model.handOverCost };
    const action = Number(word.slice(1));
    if (word.startsWith('r')) {
      const cost = costNow(model, job, at(model.repairs, action));
      return { kind: 'repair', action, cost, next: read(afterFailedRepair(model, job, action)) };
    }
    const cost = costNow(model, job, at(model.checks, action));
    return { kind: 'check', action, cost, next: afterCheck(model, job, action).map(read) };
  };
  const job = startJob(model);
  const policy = read(job);
  if (!policy || position !== words.length || mass(job) <= 0) throw new Error('not a policy');
  return policy;
}
