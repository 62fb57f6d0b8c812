/** The open job and everything that follows from it, as signals. The view reads these and calls `session`'s verbs; nothing else. */
import { batch, computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Belief, belief as beliefOf, type Movement, movements } from '../engine/belief/index.ts';
import type { Case } from '../engine/case.ts';
import type { JobData } from './data.ts';
import { deviceStore } from './keep/device.ts';
import type { JobRecord, JobStore } from './keep/jobs.ts';
import { Keeper, type KeepState } from './keep/keeper.ts';
import { codesInFragment, textOf } from './keep/link.ts';
import type { NextAction } from './planner/outlook.ts';
import { Planner } from './planner/planner.ts';
import { exportText, readSavedText } from './saved/saved.ts';
import {
  type Action,
  type Answer,
  act,
  caseOf,
  type History,
  historyOf,
  type Job,
  newJob,
  redo,
  type Stage,
  stageOf,
  undo,
  withPresentIds,
} from './state.ts';

export interface JobListing {
  readonly id: string;
  readonly name: string;
  readonly savedAt: number;
}

export class Session {
  readonly data: JobData;
  readonly history: ReadonlySignal<History>;
  readonly job: ReadonlySignal<Job>;
  readonly situation: ReadonlySignal<Case>;
  readonly belief: ReadonlySignal<Belief>;
  readonly moved: ReadonlySignal<readonly Movement[]>;
  readonly stage: ReadonlySignal<Stage>;
  readonly keepState = signal<KeepState>('kept');
  readonly listings = signal<readonly JobListing[]>([]);
  /** One sentence for the person, such as why an import was refused. */
  readonly notice = signal<string | null>(null);
  /** The belief before the last answer: where the bars stood. */
  readonly before = signal<Belief | null>(null);
  readonly planner: Planner;
  private readonly state;
  private readonly store: JobStore;
  private readonly keeper: Keeper;
  private readonly channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel('lampwise-jobs') : null;

  private constructor(data: JobData, store: JobStore, first: Job) {
    this.data = data;
    this.store = store;
    this.state = signal<History>(historyOf(first));
    this.history = this.state;
    this.job = computed(() => this.state.value.present);
    this.situation = computed(() => caseOf(this.job.value, data.knowledge));
    this.belief = computed(() => beliefOf(this.situation.value, data.knowledge));
    this.moved = computed(() => movements(this.situation.value, data.knowledge, this.belief.value));
    this.stage = computed(() => stageOf(this.job.value, this.belief.value));
    this.planner = new Planner(data.knowledge);
    this.keeper = new Keeper(
      store,
      {
        state: (state) => {
          this.keepState.value = state;
        },
        newer: (record) => this.take(record),
        forked: (id) => {
          this.replace({ ...this.job.value, id, name: `${this.job.value.name || 'Job'} (copy)` });
          this.notice.value = 'Another window changed this job at the same time. Both are kept; this one goes on as a copy.';
        },
      },
      { newId: () => crypto.randomUUID(), now: () => Date.now(), announce: (id) => this.channel?.postMessage(id) },
    );
    if (this.channel)
      this.channel.onmessage = ({ data: id }: MessageEvent<string>) => {
        if (id === this.job.value.id) void this.keeper.heard(id);
        void this.refreshList();
      };
  }

  /** Opens the job that the address names, or the one last touched, or a new one. */
  static async start(data: JobData, fragment: string): Promise<Session> {
    const store = await deviceStore();
    const session = new Session(data, store, newJob(crypto.randomUUID(), Date.now()));
    await session.refreshList();
    const codes = codesInFragment(fragment);
    const shared = fragment.startsWith('#shared=') ? await textOf(fragment) : null;
    if (shared !== null) session.importText(shared);
    else if (codes) session.do({ type: 'codes', text: codes });
    else {
      const last = session.listings.value[0];
      if (last) await session.open(last.id);
      if (fragment.startsWith('#shared=')) session.notice.value = 'The link is damaged or cut off; nothing was opened from it.';
    }
    session.plan();
    return session;
  }

  do(action: Action, field: string | null = null, foreseen: NextAction | null = null): void {
    const next = act(this.state.value, action, field);
    if (next === this.state.value) return;
    batch(() => {
      this.before.value = this.belief.peek();
      this.state.value = next;
    });
    this.changed(foreseen);
  }

  answer(answer: Answer, note = ''): void {
    const outlook = this.planner.outlook.value;
    // The plan says what follows a result of its own first step: no need to wait for it to think again.
    const foreseen =
      answer.kind === 'result' && outlook?.first.kind === 'check' && outlook.first.id === answer.check
        ? (outlook.after[answer.outcome] ?? null)
        : null;
    this.do({ type: 'answer', answer, at: Date.now(), note }, null, foreseen);
  }

  undo(): void {
    this.step(undo(this.state.value));
  }

  redo(): void {
    this.step(redo(this.state.value));
  }

  newJob(): void {
    this.open(null);
  }

  /** Opens a kept job; null begins a new one. What is open stays kept. */
  async open(id: string | null): Promise<void> {
    await this.keeper.settled();
    const record = id === null ? null : await this.store.get(id);
    if (record) this.take(record);
    else if (id === null) {
      this.keeper.open(0);
      this.show(newJob(crypto.randomUUID(), Date.now()));
    }
    this.plan();
  }

  async remove(id: string): Promise<void> {
    await this.keeper.settled();
    await this.store.remove(id);
    await this.refreshList();
    if (id === this.job.value.id) await this.open(this.listings.value[0]?.id ?? null);
  }

  /** The open job as the text of a file. */
  exported(): string {
    return exportText(this.job.value, this.data.knowledge.hash);
  }

  /** Opens a job from a file or a link under an id of its own, beside all others. */
  importText(text: string): boolean {
    const reading = readSavedText(text);
    if (!reading.ok) {
      this.notice.value = reading.says;
      return false;
    }
    this.keeper.open(0);
    this.show({ ...withPresentIds(reading.saved.job, this.data.words.renamed), id: crypto.randomUUID() });
    this.notice.value = reading.note;
    this.changed();
    return true;
  }

  /** Asks the planner for the present situation. */
  plan(foreseen: NextAction | null = null): void {
    this.planner.ask(this.situation.value, foreseen);
  }

  private step(next: History): void {
    if (next === this.state.value) return;
    batch(() => {
      this.before.value = this.belief.peek();
      this.state.value = next;
    });
    this.changed();
  }

  private changed(foreseen: NextAction | null = null): void {
    const job = this.job.value;
    this.keeper.save({ id: job.id, name: job.name, text: this.exported() });
    void this.keeper.settled().then(() => this.refreshList());
    this.plan(foreseen);
  }

  private show(job: Job): void {
    batch(() => {
      this.before.value = null;
      this.state.value = historyOf(job);
    });
  }

  /** The job under another id, with its steps back. */
  private replace(job: Job): void {
    this.state.value = { ...this.state.value, present: job };
    this.keeper.save({ id: job.id, name: job.name, text: exportText(job, this.data.knowledge.hash) });
  }

  private take(record: JobRecord): void {
    const reading = readSavedText(record.text);
    if (!reading.ok) {
      this.notice.value = reading.says;
      return;
    }
    this.keeper.open(record.revision);
    this.show({ ...withPresentIds(reading.saved.job, this.data.words.renamed), id: record.id });
    this.notice.value = reading.note;
    this.plan();
  }

  private async refreshList(): Promise<void> {
    const records = await this.store.list();
    this.listings.value = records.map(({ id, name, savedAt }) => ({ id, name, savedAt })).sort((a, b) => b.savedAt - a.savedAt);
  }
}
