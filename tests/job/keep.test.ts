import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { codesInFragment, fragmentOfJob, jobInFragment, symptomsInFragment } from '../../src/job/keep/address.ts';
import { type JobRecord, type JobStore, memoryStore } from '../../src/job/keep/jobs.ts';
import { Keeper, type KeepState } from '../../src/job/keep/keeper.ts';
import { fragmentOf, longestFragment, textOf } from '../../src/job/keep/link.ts';
import { isOpen, jobIn } from '../../src/job/keep/open-jobs.ts';
import { putStepsBy, stepsPutBy } from '../../src/job/keep/steps-back.ts';
import { putUnwrittenBy, writePutBy } from '../../src/job/keep/unwritten.ts';
import { exportText, readSavedText } from '../../src/job/saved/saved.ts';
import { act, historyOf, newJob, undo } from '../../src/job/state.ts';

let copies = 0;

function window(store: JobStore, id = 'job', others: Keeper[] = []) {
  const states: KeepState[] = [];
  const newer: JobRecord[] = [];
  const forks: string[] = [];
  const keeper: Keeper = new Keeper(
    store,
    { state: (state) => states.push(state), newer: (record) => newer.push(record), forked: (copy) => forks.push(copy) },
    {
      newId: () => `${id}-copy-${++copies}`,
      now: () => 5,
      announce: (written) => {
        for (const other of others) if (other !== keeper) void other.heard(written);
      },
    },
  );
  others.push(keeper);
  const save = (text: string, as = id) => keeper.save({ id: as, name: 'A car', text });
  return { keeper, states, newer, forks, save };
}

describe('keeping a job', () => {
  test('every change is written, the last one wins', async () => {
    const store = memoryStore();
    const { keeper, save } = window(store);
    for (const text of ['a', 'b', 'c']) save(text);
    await keeper.settled();
    expect(await store.get('job')).toMatchObject({ text: 'c' });
  });

  test('a full disk is said, nothing kept before is lost, and the next change tries again', async () => {
    const kept = memoryStore();
    let full = false;
    const store: JobStore = {
      ...kept,
      durable: true,
      put: (record, seen) => (full ? Promise.reject(new DOMException('full', 'QuotaExceededError')) : kept.put(record, seen)),
    };
    const { keeper, states, save } = window(store);
    save('a');
    await keeper.settled();
    full = true;
    save('b');
    await keeper.settled();
    expect(states.at(-1)).toBe('full');
    expect(await store.get('job')).toMatchObject({ text: 'a' });
    full = false;
    save('c');
    await keeper.settled();
    expect(states.at(-1)).toBe('kept');
    expect(await store.get('job')).toMatchObject({ text: 'c' });
  });

  test('where the device keeps nothing, that is said', async () => {
    const { keeper, states, save } = window(memoryStore());
    save('a');
    await keeper.settled();
    expect(states.at(-1)).toBe('not-durable');
  });

  test('a window with nothing unsaved follows the other', async () => {
    const store = memoryStore();
    const windows: Keeper[] = [];
    const first = window(store, 'job', windows);
    const second = window(store, 'job', windows);
    first.save('a');
    await first.keeper.settled();
    await Promise.resolve();
    expect(second.newer.map(({ text }) => text)).toEqual(['a']);
    second.save('b');
    await second.keeper.settled();
    expect(await store.get('job')).toMatchObject({ text: 'b', revision: 2 });
  });

  test('when both write at once, both are kept: the later goes on as a copy', async () => {
    const store = memoryStore();
    const first = window(store);
    const second = window(store);
    first.save('from the first');
    await first.keeper.settled();
    second.save('from the second');
    await second.keeper.settled();
    expect(second.forks).toEqual(['job-copy-1']);
    expect((await store.list()).map(({ id, text }) => `${id}: ${text}`).sort()).toEqual([
      'job-copy-1: from the second',
      'job: from the first',
    ]);
  });

  test('whatever two windows write, each last text of each is kept somewhere', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(fc.boolean(), fc.boolean()), { minLength: 1, maxLength: 12 }), async (writes) => {
        const store = memoryStore();
        const windows: Keeper[] = [];
        const both = [window(store, 'job', windows), window(store, 'job', windows)] as const;
        const last: [string, string] = ['', ''];
        const ids = ['job', 'job'];
        let number = 0;
        for (const [which, wait] of writes) {
          const index = which ? 1 : 0;
          const me = both[index];
          ids[index] = me.forks.at(-1) ?? ids[index]!;
          last[index] = `text ${++number}`;
          me.save(last[index], ids[index]);
          if (wait) await Promise.all(both.map(({ keeper }) => keeper.settled()));
        }
        await Promise.all(both.map(({ keeper }) => keeper.settled()));
        const texts = (await store.list()).map(({ text }) => text);
        expect(texts).toContain(`text ${number}`);
        // The other's last text is kept, or was followed by a window that had seen it.
        for (const index of [0, 1] as const) {
          const other = both[1 - index]!;
          if (last[index]) expect(texts.includes(last[index]) || other.newer.some(({ text }) => text === last[index])).toBe(true);
        }
      }),
    );
  });
});

describe('a job in a link', () => {
  test('any text comes back', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'grapheme', maxLength: 500 }), async (text) => {
        const link = await fragmentOf(text);
        expect(link.ok && (await textOf(link.fragment))).toBe(text);
      }),
    );
  });

  test('one that is too long is refused, and says what to do', async () => {
    const noise = Array.from({ length: 9000 }, (_, index) =>
      String.fromCharCode(33 + ((index * 7919 + ((index * index) % 101)) % 90)),
    ).join('');
    const link = await fragmentOf(noise.repeat(2) + noise.split('').sort().join(''));
    expect(link.ok ? link.fragment.length : longestFragment + 1).toBeGreaterThan(longestFragment);
    expect(link).toMatchObject({ ok: false, says: expect.stringContaining('Export it as a file instead') });
  });

  test('a damaged or foreign fragment is nothing, and a huge one is not unfolded', async () => {
    for (const fragment of ['', '#', '#shared=', '#shared=%%%', '#shared=AAAA', '#codes=P0301']) expect(await textOf(fragment)).toBeNull();
    const bomb = await fragmentOf('0'.repeat(5_000_000));
    expect(bomb.ok && (await textOf(bomb.fragment))).toBeNull();
  });

  test('codes can be named in a link', () => {
    expect(codesInFragment('#codes=P0301,P0304')).toBe('P0301, P0304');
    expect(codesInFragment('#codes=<b>')).toBeNull();
  });
});

describe('the address of a job', () => {
  test('names the job and nothing else', () => {
    const id = crypto.randomUUID();
    expect(jobInFragment(fragmentOfJob(id))).toBe(id);
    for (const fragment of ['', '#job=', '#job=a b', '#job=<b>', `#job=${'a'.repeat(61)}`, '#codes=P0301', '#new'])
      expect(jobInFragment(fragment)).toBeNull();
  });
});

test('a job can begin with symptoms that its address names', () => {
  expect(symptomsInFragment('#symptoms=shakes-at-stop-light,lamp-flashing')).toEqual(['shakes-at-stop-light', 'lamp-flashing']);
  for (const fragment of ['', '#symptoms=', '#symptoms=<b>', '#symptoms=A B', '#codes=P0301'])
    expect(symptomsInFragment(fragment)).toEqual([]);
});

describe('which jobs are open', () => {
  const record = (text: string): JobRecord => ({ id: 'a', name: '', savedAt: 0, revision: 1, text });
  const answered = (...kinds: readonly string[]) => record(JSON.stringify({ job: { timeline: kinds.map((kind) => ({ kind })) } }));

  test('all but those that ended, and those that cannot be read', () => {
    expect(isOpen(jobIn(answered('result', 'repair')))).toBe(true);
    expect(isOpen(jobIn(answered('result', 'ended')))).toBe(false);
    expect(isOpen(jobIn(answered('ended', 'returned')))).toBe(true);
    expect(isOpen(jobIn(record('{')))).toBe(false);
    expect(isOpen(jobIn(record('{}')))).toBe(false);
  });
});

/** The storage of a window: what it holds, and all of it as a browser gives it. */
function storage() {
  const held = new Map<string, string>();
  const all = {
    get length() {
      return held.size;
    },
    key: (index: number) => [...held.keys()][index] ?? null,
    getItem: (key: string) => held.get(key) ?? null,
    setItem: (key: string, value: string) => held.set(key, value),
    removeItem: (key: string) => held.delete(key),
  } as unknown as Storage;
  return { held, all: () => all };
}

describe('undo over a reload', () => {
  const named = ['a', 'b', 'c'].reduce((history, name) => act(history, { type: 'name', name }), historyOf(newJob('job', 1)));

  test('the steps of the same job come back, forward and back', () => {
    const held = storage().all();
    const stepped = undo(named);
    putStepsBy(stepped, 'content', held);
    expect(stepsPutBy(exportText(stepped.present, 'content'), held, readSavedText)).toEqual({ past: stepped.past, future: stepped.future });
  });

  test('a job that was changed elsewhere meanwhile, another one, and a damaged store have none', () => {
    const held = storage().all();
    expect(stepsPutBy(exportText(named.present, 'content'), held, readSavedText)).toBeNull();
    putStepsBy(named, 'content', held);
    expect(stepsPutBy(exportText({ ...named.present, name: 'other' }, 'content'), held, readSavedText)).toBeNull();
    held.setItem('steps-back', JSON.stringify({ present: exportText(named.present, 'content'), past: ['{'], future: [] }));
    expect(stepsPutBy(exportText(named.present, 'content'), held, readSavedText)).toBeNull();
  });
});

describe('what a closing window has not written', () => {
  const tools = { newId: () => 'copy', now: () => 9 };
  const device = (): JobStore => ({ ...memoryStore(), durable: true });
  /** A store whose writes never end: the window is closed before. */
  const stalled = (store: JobStore): JobStore => ({ ...store, put: () => new Promise(() => {}) });

  test('is known while it is being written and while it waits, and no longer when it is done', async () => {
    const store = device();
    const { keeper, save } = window(store);
    expect(keeper.unwritten()).toBeNull();
    save('a');
    expect(keeper.unwritten()).toEqual({ id: 'job', name: 'A car', text: 'a', revision: 0 });
    save('b');
    expect(keeper.unwritten()?.text).toBe('b');
    await keeper.settled();
    expect(keeper.unwritten()).toBeNull();
    save('c');
    expect(keeper.unwritten()).toMatchObject({ text: 'c', revision: 2 });
    keeper.open(0);
    expect(keeper.unwritten()).toBeNull();
  });

  test('is written by the next window, as the latest form of the same job', async () => {
    const store = device();
    const first = window(store);
    first.save('a');
    await first.keeper.settled();
    const { keeper, save } = window(stalled(store));
    keeper.open(1);
    save('b');
    const { held, all } = storage();
    putUnwrittenBy('job', keeper.unwritten(), all);
    await writePutBy(store, all, tools);
    expect(await store.list()).toMatchObject([{ id: 'job', text: 'b', revision: 2 }]);
    expect(held.size).toBe(0);
  });

  test('is nothing more where the writing was done after all, and a copy where another window has written meanwhile', async () => {
    const { held, all } = storage();
    const put = (text: string) => putUnwrittenBy('job', { id: 'job', name: 'A car', text, revision: 0 }, all);
    const store = device();
    await store.put({ id: 'job', name: 'A car', text: 'a', savedAt: 1 }, 0);
    put('a');
    await writePutBy(store, all, tools);
    expect(await store.list()).toMatchObject([{ id: 'job', text: 'a', revision: 1 }]);
    put('b');
    await writePutBy(store, all, tools);
    expect(await store.list()).toMatchObject([
      { id: 'job', text: 'a', revision: 1 },
      { id: 'copy', name: 'A car (copy)', text: 'b', revision: 1 },
    ]);
    expect(held.size).toBe(0);
  });

  test('stays put by where the device is full or keeps nothing; what is damaged is swept up, other keys are left alone', async () => {
    const { held, all } = storage();
    putUnwrittenBy('job', { id: 'job', name: 'A car', text: 'a', revision: 0 }, all);
    held.set('unwritten:damaged', '{');
    held.set('unwritten:empty', 'null');
    held.set('paper', 'A4');
    await writePutBy(memoryStore(), all, tools);
    expect(held.size).toBe(4);
    await writePutBy({ ...device(), put: () => Promise.reject(new DOMException('full', 'QuotaExceededError')) }, all, tools);
    expect([...held.keys()].sort()).toEqual(['paper', 'unwritten:job']);
    putUnwrittenBy('job', null, all);
    expect([...held.keys()]).toEqual(['paper']);
  });

  test('a window that forbids storage neither fails nor keeps', async () => {
    const forbidden = () => {
      throw new DOMException('no', 'SecurityError');
    };
    expect(() => putUnwrittenBy('job', { id: 'job', name: '', text: 'a', revision: 0 }, forbidden)).not.toThrow();
    await expect(writePutBy(device(), forbidden, tools)).resolves.toBeUndefined();
  });
});
