/** A job that a closing window could not finish writing: put by as it goes, and written when a window comes back. */
import type { JobStore } from './jobs.ts';
import type { Unwritten } from './keeper.ts';

const places = 'unwritten:';

/** The window's storage, asked for when it is needed: where it is forbidden the asking fails. */
type Storages = () => Storage;

/** Puts it by; null takes away what was put by for this job. A window that refuses keeps nothing. */
export function putUnwrittenBy(id: string, unwritten: Unwritten | null, storage: Storages): void {
  try {
    if (unwritten) storage().setItem(places + id, JSON.stringify(unwritten));
    else storage().removeItem(places + id);
  } catch {
    // Without room the last moment is lost; all before it is kept.
  }
}

/**
 * Writes what was put by. Where the window got its writing done after all nothing is left to do; where another window has written
 * meanwhile it goes on as a copy. What the device refuses stays put by, and all of it where the device keeps nothing.
 */
export async function writePutBy(store: JobStore, storage: Storages, tools: { newId: () => string; now: () => number }): Promise<void> {
  if (!store.durable) return;
  for (const place of placesIn(storage)) {
    try {
      const { id, name, text, revision } = JSON.parse(storage().getItem(place) ?? 'null') as Unwritten;
      const savedAt = tools.now();
      const result = await store.put({ id, name, text, savedAt }, revision);
      if (result.kind === 'overtaken' && result.by.text !== text)
        await store.put({ id: tools.newId(), name: `${name || 'Job'} (copy)`, text, savedAt }, 0);
    } catch (error) {
      if (!(error instanceof SyntaxError || error instanceof TypeError)) continue;
    }
    storage().removeItem(place);
  }
}

function placesIn(storage: Storages): readonly string[] {
  try {
    const held = storage();
    return Array.from({ length: held.length }, (_, i) => held.key(i) ?? '').filter((key) => key.startsWith(places));
  } catch {
    return [];
  }
}
