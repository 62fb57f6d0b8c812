/**
 * Keeps one open job: writes after every change, one write at a time, and never over what another window has written.
 * What another window wrote first is taken when nothing here is unsaved; else this window's job goes on as a copy.
 */
import type { JobRecord, JobStore } from './jobs.ts';

export type KeepState = 'kept' | 'writing' | 'full' | 'failed' | 'not-durable';

export interface KeeperEvents {
  readonly state: (state: KeepState) => void;
  /** Another window wrote a newer form of this job; nothing here was unsaved. */
  readonly newer: (record: JobRecord) => void;
  /** Both windows wrote: this one goes on under a new id. */
  readonly forked: (id: string) => void;
}

/** The job's present form as it is to be written. */
export interface Writing {
  readonly id: string;
  readonly name: string;
  readonly text: string;
}

/** What is still to be written, and the kept revision that it follows. */
export interface Unwritten extends Writing {
  readonly revision: number;
}

export class Keeper {
  private readonly store: JobStore;
  private readonly events: KeeperEvents;
  private readonly newId: () => string;
  private readonly now: () => number;
  private readonly announce: (id: string) => void;
  private revision = 0;
  private waiting: Writing | null = null;
  /** What the last write was given, until it is done. */
  private begun: Writing | null = null;
  private running: Promise<void> | null = null;

  constructor(store: JobStore, events: KeeperEvents, tools: { newId: () => string; now: () => number; announce: (id: string) => void }) {
    this.store = store;
    this.events = events;
    this.newId = tools.newId;
    this.now = tools.now;
    this.announce = tools.announce;
  }

  /** Begins with a job at the revision in which it was read; 0 for a new one. */
  open(revision: number): void {
    this.revision = revision;
    this.waiting = null;
    this.begun = null;
  }

  /** What is not written yet; null when all is. */
  unwritten(): Unwritten | null {
    const writing = this.waiting ?? this.begun;
    return writing && { ...writing, revision: this.revision };
  }

  /** Notes the latest form; of several changes while a write runs only the last is written. */
  save(writing: Writing): void {
    this.waiting = writing;
    this.running ??= this.drain().finally(() => {
      this.running = null;
    });
  }

  /** Resolves when nothing is unsaved or saving has failed. */
  settled(): Promise<void> {
    return this.running ?? Promise.resolve();
  }

  /** Another window says that it wrote this job. */
  async heard(id: string): Promise<void> {
    if (this.running) return;
    const record = await this.store.get(id);
    if (this.running || !record || record.revision <= this.revision) return;
    this.revision = record.revision;
    this.events.newer(record);
  }

  private async drain(): Promise<void> {
    while (this.waiting) {
      const writing = this.waiting;
      this.waiting = null;
      this.begun = writing;
      this.events.state('writing');
      try {
        const result = await this.store.put({ ...writing, savedAt: this.now() }, this.revision);
        this.begun = null;
        if (result.kind === 'overtaken') this.fork(writing);
        else {
          this.revision = result.revision;
          this.announce(writing.id);
          if (!this.waiting) this.events.state(this.store.durable ? 'kept' : 'not-durable');
        }
      } catch (error) {
        // The job stays whole in this window; the next change tries again.
        this.events.state((error as Error).name === 'QuotaExceededError' ? 'full' : 'failed');
        return;
      }
    }
  }

  private fork(writing: Writing): void {
    const id = this.newId();
    this.revision = 0;
    this.events.forked(id);
    // `forked` may have saved already, and more may have been typed meanwhile: the latest goes on.
    this.waiting = { ...((this.waiting as Writing | null) ?? writing), id };
  }
}
