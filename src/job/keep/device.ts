/** Jobs in IndexedDB. */
import { type DBSchema, openDB } from 'idb';
import { type JobRecord, type JobStore, memoryStore, type PutResult } from './jobs.ts';

interface Device extends DBSchema {
  jobs: { key: string; value: JobRecord };
}

/** The device's store; one in memory when the device refuses to keep anything. */
export async function deviceStore(): Promise<JobStore> {
  try {
    const database = await openDB<Device>('lampwise', 1, {
      upgrade: (opened) => {
        opened.createObjectStore('jobs', { keyPath: 'id' });
      },
      // A newer page in another window waits for this one to let go.
      blocking: (_current, _wanted, event) => {
        (event.target as IDBDatabase).close();
      },
    });
    return {
      durable: true,
      list: () => database.getAll('jobs'),
      get: async (id) => (await database.get('jobs', id)) ?? null,
      put: async (record, seen): Promise<PutResult> => {
        const transaction = database.transaction('jobs', 'readwrite', { durability: 'strict' });
        const kept = await transaction.store.get(record.id);
        if (kept && kept.revision !== seen) {
          await transaction.done;
          return { kind: 'overtaken', by: kept };
        }
        await transaction.store.put({ ...record, revision: seen + 1 });
        await transaction.done;
        return { kind: 'written', revision: seen + 1 };
      },
      remove: (id) => database.delete('jobs', id),
    };
  } catch {
    return memoryStore();
  }
}
