/** The page's side of the planner: asks the worker, keeps the latest answer, and knows at once what follows a foreseen result. */
import { batch, signal } from '@preact/signals';
import type { Case } from '../../engine/case.ts';
import type { Knowledge } from '../../engine/knowledge.ts';
import type { NextAction, OtherOrder, Outlook } from './outlook.ts';
import type { Proposal } from './proposal.ts';
import type { Request, Response } from './protocol.ts';

/** After this long without a plan its first guess is shown. */
const patienceMilliseconds = 500;

/** A plan must be this much cheaper to be offered. */
const worthSaying = 0.99;

export class Planner {
  readonly proposals = signal<readonly Proposal[]>([]);
  readonly outlook = signal<Outlook | null>(null);
  /** A longer look found a cheaper plan that begins otherwise: offered, never put in place of what one is reading. */
  readonly better = signal<Outlook | null>(null);
  readonly orders = signal<readonly OtherOrder[] | null>(null);
  /** What the plan foresaw for the last answer: shown at once, until the planner has thought again. */
  readonly foreseen = signal<NextAction | null>(null);
  /** The plan is of the present situation. */
  readonly upToDate = signal(false);
  /** The plan takes long: the best by one look ahead is shown meanwhile. */
  readonly impatient = signal(false);
  readonly failure = signal<string | null>(null);
  private readonly knowledge: Knowledge;
  private worker: Worker;
  private turn = 0;
  private comparing = false;
  private refining = false;
  private situation: Case | null = null;

  constructor(knowledge: Knowledge) {
    this.knowledge = knowledge;
    this.worker = this.hire();
  }

  ask(situation: Case, foreseen: NextAction | null = null): void {
    this.situation = situation;
    this.turn += 1;
    batch(() => {
      this.foreseen.value = foreseen;
      this.upToDate.value = false;
      this.orders.value = null;
      this.better.value = null;
      this.impatient.value = false;
    });
    // A comparison or a longer look runs for seconds; the next step must not wait for it.
    if (this.comparing || this.refining) {
      this.worker.terminate();
      this.worker = this.hire();
      this.comparing = false;
      this.refining = false;
    }
    this.send({ kind: 'rank', turn: this.turn, situation });
  }

  /** Asks for the same job in other orders. */
  compare(): void {
    if (!this.situation || this.comparing) return;
    this.comparing = true;
    this.send({ kind: 'compare', turn: this.turn, situation: this.situation });
  }

  /** Puts the better plan in place. */
  takeBetter(): void {
    const better = this.better.value;
    if (!better) return;
    batch(() => {
      this.outlook.value = better;
      this.better.value = null;
    });
  }

  private send(request: Request): void {
    this.worker.postMessage(request);
  }

  private hire(): Worker {
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<Response>) => this.hear(data);
    worker.postMessage({ kind: 'knowledge', knowledge: this.knowledge } satisfies Request);
    return worker;
  }

  private hear(response: Response): void {
    if (response.kind === 'orders') this.comparing = false;
    if (response.kind === 'outlook') this.refining = true;
    if (response.kind === 'refined') this.refining = false;
    if (response.turn !== this.turn) return;
    switch (response.kind) {
      case 'proposals':
        batch(() => {
          this.proposals.value = response.proposals;
          this.failure.value = null;
        });
        setTimeout(() => {
          if (response.turn === this.turn && !this.upToDate.value) this.impatient.value = true;
        }, patienceMilliseconds);
        break;
      case 'outlook':
        batch(() => {
          this.outlook.value = response.outlook;
          this.upToDate.value = true;
        });
        break;
      case 'refined': {
        const { first, expectedCost } = response.outlook;
        const now = this.outlook.value;
        if (!now || expectedCost >= now.expectedCost * worthSaying) break;
        if (first.kind === now.first.kind && first.id === now.first.id) this.outlook.value = response.outlook;
        else this.better.value = response.outlook;
        break;
      }
      case 'orders':
        this.orders.value = response.orders;
        break;
      case 'failed':
        this.failure.value = response.message;
    }
  }
}
