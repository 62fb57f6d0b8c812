/** The open job and everything that follows from it, as signals. The view reads these and calls `session`'s verbs; nothing else. */
import { batch, computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Belief, belief as beliefOf, type Movement, movements } from '../engine/belief/index.ts';
import type { Case } from '../engine/case.ts';
import type { JobData } from './data.ts';
import { codesInFragment, fragmentOfJob, jobInFragment, newJobFragment, symptomsInFragment } from './keep/address.ts';
import { deviceStore } from './keep/device.ts';
import type { JobRecord, JobStore } from './keep/jobs.ts';
import { Keeper, type KeepState } from './keep/keeper.ts';
import { textOf } from './keep/link.ts';
import { isOpen, jobIn, noteOpenJobs } from './keep/open-jobs.ts';
import { putStepsBy, stepsPutBy } from './keep/steps-back.ts';
import { putUnwrittenBy, writePutBy } from './keep/unwritten.ts';
import type { NextAction } from './planner/outlook.ts';
import { Planner } from './planner/planner.ts';
import { exportText } from './saved/form.ts';
import type { Reading } from './saved/saved.ts';
import { own } from './state/own.ts';
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

/** Writes the part of the address after `#`: in place of the present one, or as a place to come back from. */
export type ShowAddress = (fragment: string, how: 'replace' | 'push') => void;

/** Ids and the time, as this device makes them. */
const atHand = { newId: () => crypto.randomUUID(), now: () => Date.now() };

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
  /** Figures of the bench that wait to be put into a job. */
  readonly given = signal<Job | null>(null);
  /** The belief before the last answer: where the bars stood. */
  readonly before = signal<Belief | null>(null);
  readonly planner: Planner;
  private readonly state;
  private readonly store: JobStore;
  private readonly keeper: Keeper;
  private readonly showAddress: ShowAddress;
  /** Reads saved jobs; null until there is one to read. */
  private saved: typeof import('./saved/saved.ts') | null = null;
  private readonly openness = new Map<string, { readonly savedAt: number; readonly open: boolean }>();
  private readonly channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel('lampwise-jobs') : null;

  private constructor(data: JobData, store: JobStore, first: Job, showAddress: ShowAddress) {
    this.data = data;
    this.store = store;
    this.showAddress = showAddress;
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
          this.showAddress(fragmentOfJob(id), 'replace');
          this.notice.value = 'Another window changed this job at the same time. Both are kept; this one goes on as a copy.';
        },
      },
      { ...atHand, announce: (id) => this.channel?.postMessage(id) },
    );
    if (this.channel)
      this.channel.onmessage = ({ data: id }: MessageEvent<string>) => {
        if (id === this.job.value.id) void this.reader().then(() => this.keeper.heard(id));
        void this.refreshList();
      };
  }

  /** Opens the job that the address names, or the one last touched, or a new one. */
  static async start(data: JobData, fragment: string, showAddress: ShowAddress): Promise<Session> {
    const store = await deviceStore();
    await writePutBy(store, () => localStorage, atHand);
    const session = new Session(data, store, newJob(crypto.randomUUID(), Date.now()), showAddress);
    await session.refreshList();
    await session.follow(fragment);
    return session;
  }

  /** Does what the part of the address after `#` asks. */
  async follow(fragment: string): Promise<void> {
    await this.keeper.settled();
    const codes = codesInFragment(fragment);
    const named = jobInFragment(fragment);
    const carried = /^#(shared|given)=/.exec(fragment)?.[1];
    const text = carried ? await textOf(fragment) : null;
    if (named === this.job.value.id) return;
    if (fragment === newJobFragment) return this.open(null, 'replace');
    if (codes) {
      this.begin('replace');
      this.do({ type: 'codes', text: codes });
      return;
    }
    const symptoms = symptomsInFragment(fragment).filter((id) => own(this.data.knowledge.symptoms, id));
    if (symptoms.length > 0) {
      this.begin('replace');
      for (const id of symptoms) this.do({ type: 'symptom', id, presence: 'present' });
      return;
    }
    if (carried === 'shared' && text !== null && (await this.importText(text, 'replace'))) return;
    const refused = this.notice.value;
    if (named !== null && (await this.store.get(named))) return this.open(named, 'replace');
    const last = this.listings.value[0];
    if (last) await this.open(last.id, 'replace');
    else this.begin('replace');
    if (refused !== null) this.notice.value = refused;
    if (carried && text === null) this.notice.value = 'The link is damaged or cut off; nothing was opened from it.';
    else if (named !== null)
      this.notice.value = 'The job of this address is not on this device. Jobs travel by export or by a shared link.';
    else if (carried === 'given') {
      await this.reader();
      this.offer(text!);
    }
  }

  do(action: Action, field: string | null = null, foreseen: NextAction | null = null): void {
    this.step(act(this.state.value, action, field), foreseen);
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
    void this.open(null);
  }

  /** Opens a kept job; null begins a new one. What is open stays kept. */
  async open(id: string | null, how: 'replace' | 'push' = 'push'): Promise<void> {
    await this.keeper.settled();
    if (id !== null) await this.reader();
    const record = id === null ? null : await this.store.get(id);
    if (record) {
      if (this.take(record)) this.showAddress(fragmentOfJob(record.id), how);
    } else if (id === null) this.begin(how);
    this.plan();
  }

  /** A job with nothing in it. It gets an address of its own with the first thing that is kept. */
  private begin(how: 'replace' | 'push'): void {
    this.keeper.open(0);
    this.showAddress(newJobFragment, how);
    this.show(newJob(crypto.randomUUID(), Date.now()));
    this.plan();
  }

  /** Puts what waits into the open job, or into another one; null for a new one. */
  async putGiven(id: string | null): Promise<void> {
    const from = this.given.value;
    if (!from) return;
    if (id !== this.job.value.id) await this.open(id);
    this.given.value = null;
    this.do({ type: 'given', from, at: Date.now() });
  }

  /** Figures of the bench: into a new job where there is no other, else the person says which. */
  private offer(text: string): void {
    const reading = this.read(text);
    if (!reading.ok) {
      this.notice.value = reading.says;
      return;
    }
    this.given.value = withPresentIds(reading.saved.job, this.data.words.renamed);
    if (this.listings.value.length === 0) void this.putGiven(this.job.value.id);
  }

  async remove(id: string): Promise<void> {
    await this.keeper.settled();
    await this.store.remove(id);
    await this.refreshList();
    if (id === this.job.value.id) await this.open(this.listings.value[0]?.id ?? null, 'replace');
  }

  /** Fetches what reads saved jobs; a first visit has none. Whoever comes to `take` or `read` has waited for it. */
  private async reader(): Promise<void> {
    this.saved ??= await import('./saved/saved.ts');
  }

  private read(text: string): Reading {
    return this.saved!.readSavedText(text);
  }

  /** The open job as the text of a file. */
  exported(): string {
    return exportText(this.job.value, this.data.knowledge.hash);
  }

  /** Opens a job from a file or a link under an id of its own, beside all others. */
  async importText(text: string, how: 'replace' | 'push' = 'push'): Promise<boolean> {
    await this.keeper.settled();
    await this.reader();
    const reading = this.read(text);
    if (!reading.ok) {
      this.notice.value = reading.says;
      return false;
    }
    this.keeper.open(0);
    this.showAddress(newJobFragment, how);
    this.show({ ...withPresentIds(reading.saved.job, this.data.words.renamed), id: crypto.randomUUID() });
    this.notice.value = reading.note;
    this.changed();
    return true;
  }

  /** Asks the planner for the present situation. */
  plan(foreseen: NextAction | null = null): void {
    this.planner.ask(this.situation.value, foreseen);
  }

  private step(next: History, foreseen: NextAction | null = null): void {
    if (next === this.state.value) return;
    batch(() => {
      this.before.value = this.belief.peek();
      this.state.value = next;
    });
    this.changed(foreseen);
  }

  private changed(foreseen: NextAction | null = null): void {
    this.showAddress(fragmentOfJob(this.job.value.id), 'replace');
    this.save();
    void this.keeper.settled().then(() => this.refreshList());
    this.plan(foreseen);
  }

  private show(job: Job, steps: Pick<History, 'past' | 'future'> | null = null): void {
    batch(() => {
      this.before.value = null;
      this.state.value = { ...historyOf(job), ...steps };
    });
  }

  /** The window goes: puts undo and redo by for when it comes back, and what is not written yet. */
  leave(): void {
    putStepsBy(this.state.value, this.data.knowledge.hash, sessionStorage);
    putUnwrittenBy(this.job.value.id, this.keeper.unwritten(), () => localStorage);
  }

  /** The window was only hidden and goes on: it writes by itself what it has put by. */
  comeBack(): void {
    putUnwrittenBy(this.job.value.id, null, () => localStorage);
  }

  /** The job under another id, with its steps back. */
  private replace(job: Job): void {
    this.state.value = { ...this.state.value, present: job };
    this.save();
  }

  private save(): void {
    const { id, name } = this.job.value;
    this.keeper.save({ id, name, text: this.exported() });
  }

  private take(record: JobRecord): boolean {
    const reading = this.read(record.text);
    if (!reading.ok) {
      this.notice.value = reading.says;
      return false;
    }
    this.keeper.open(record.revision);
    const job = { ...withPresentIds(reading.saved.job, this.data.words.renamed), id: record.id };
    this.show(job, stepsPutBy(record.text, sessionStorage, this.saved!.readSavedText));
    this.notice.value = reading.note;
    this.plan();
    return true;
  }

  private async refreshList(): Promise<void> {
    const records = await this.store.list();
    this.listings.value = records.map(({ id, name, savedAt }) => ({ id, name, savedAt })).sort((a, b) => b.savedAt - a.savedAt);
    noteOpenJobs(records.filter((record) => this.isOpen(record)).length);
  }

  /** A record is read again only when it has been written. */
  private isOpen(record: JobRecord): boolean {
    const known = this.openness.get(record.id);
    if (known?.savedAt === record.savedAt) return known.open;
    const open = isOpen(jobIn(record));
    this.openness.set(record.id, { savedAt: record.savedAt, open });
    return open;
  }
}
