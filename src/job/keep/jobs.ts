/** Where jobs are kept: the contract, and a store in memory for when the device refuses (private windows) and for tests. */

/** One kept job. `text` is the saved form, so that a record of a newer page is carried along unread and unharmed. */
export interface JobRecord {
  readonly id: string;
  readonly name: string;
  readonly savedAt: number;
  /** Rises by one with every write; a writer says which revision it has seen. */
  readonly revision: number;
  readonly text: string;
}

export type PutResult = { readonly kind: 'written'; readonly revision: number } | { readonly kind: 'overtaken'; readonly by: JobRecord };

export interface JobStore {
  readonly durable: boolean;
  list(): Promise<readonly JobRecord[]>;
  get(id: string): Promise<JobRecord | null>;
  /**
   * Writes when the kept revision is `seen` (0: none yet), in one transaction: a crash leaves the old record or the new one.
   * Rejects with a QuotaExceededError when the disk is full.
   */
  put(record: Omit<JobRecord, 'revision'>, seen: number): Promise<PutResult>;
  remove(id: string): Promise<void>;
}

export function memoryStore(): JobStore {
  const records = new Map<string, JobRecord>();
  return {
    durable: false,
    list: async () => [...records.values()],
    get: async (id) => records.get(id) ?? null,
    put: async (record, seen) => {
      const kept = records.get(record.id);
      if (kept && kept.revision !== seen) return { kind: 'overtaken', by: kept };
      records.set(record.id, { ...record, revision: seen + 1 });
      return { kind: 'written', revision: seen + 1 };
    },
    remove: async (id) => {
      records.delete(id);
    },
  };
}
