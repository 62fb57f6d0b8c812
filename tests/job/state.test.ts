import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { act, emptyInputs, type History, historyOf, newJob, redo, reduce, stageOf, undo, withPresentIds } from '../../src/job/state.ts';
import { anyAction, anyJob } from './any-job.ts';

const start = newJob('a-job', 0);
const answered = (...answers: Parameters<typeof reduce>[1][]) => answers.reduce(reduce, start);
const result = (check: string, outcome: string) =>
  ({ type: 'answer', at: 1, answer: { kind: 'result', check, outcome, reading: null, before: false } }) as const;

describe('the reducer', () => {
  test('pasted text is kept beside the codes that were understood', () => {
    const job = reduce(start, { type: 'codes', text: '43 02 03 01 03 02' });
    expect(job.inputs).toMatchObject({ codesText: '43 02 03 01 03 02', codes: ['P0301', 'P0302'] });
  });

  test('"not known" takes an answer back without a trace', () => {
    const known = reduce(start, { type: 'trait', trait: 'ignition', value: 'waste-spark' });
    expect(reduce(known, { type: 'trait', trait: 'ignition', value: null })).toEqual(start);
    expect(reduce(reduce(start, { type: 'symptom', id: 'a', presence: 'absent' }), { type: 'symptom', id: 'a', presence: null })).toEqual(
      start,
    );
  });

  test('another number of cylinders drops a firing order of the old one', () => {
    const six = answered(
      { type: 'cylinders', cylinders: 4 },
      { type: 'firing-order', order: [1, 3, 4, 2], bank1: [] },
      { type: 'cylinders', cylinders: 6 },
    );
    expect(six.inputs.firingOrder).toEqual([]);
  });

  test('an old answer can be changed in its place, and taken out', () => {
    const job = answered(result('one', 'good'), result('two', 'good'));
    const revised = reduce(job, {
      type: 'revise',
      id: 1,
      answer: { kind: 'result', check: 'one', outcome: 'bad', reading: null, before: false },
    });
    expect(revised.timeline.map((entry) => entry.kind === 'result' && `${entry.id} ${entry.check} ${entry.outcome}`)).toEqual([
      '1 one bad',
      '2 two good',
    ]);
    expect(reduce(revised, { type: 'remove', id: 1 }).timeline.map(({ id }) => id)).toEqual([2]);
  });

  test('numbers of entries are never used twice, even after taking the last one out', () => {
    const job = answered(result('one', 'good'), { type: 'remove', id: 1 }, result('one', 'bad'));
    expect(job.timeline.map(({ id }) => id)).toEqual([2]);
  });

  test('a repair that looks good starts a new clock', () => {
    const driven = answered({ type: 'proof', change: { clean: 300, returnsBefore: 3 } }, { type: 'tick', line: 'clear', on: true });
    const repaired = reduce(driven, { type: 'answer', at: 1, answer: { kind: 'repair', cause: 'a', outcome: 'gone' } });
    expect(repaired.proof).toMatchObject({ clean: 0, ticked: [], returnsBefore: 3 });
  });

  test('no action changes the job that it was given', () => {
    fc.assert(
      fc.property(anyJob, anyAction, (job, action) => {
        const before = structuredClone(job);
        reduce(job, action);
        expect(job).toEqual(before);
      }),
    );
  });
});

describe('undo and redo', () => {
  test('undo after any action is as if nothing had been done', () => {
    fc.assert(
      fc.property(fc.array(anyAction, { maxLength: 15 }), anyAction, (before, action) => {
        const history = before.reduce<History>((state, one) => act(state, one), historyOf(start));
        const done = act(history, action);
        if (done === history) return;
        expect(undo(done).present).toEqual(history.present);
        expect(redo(undo(done)).present).toEqual(done.present);
      }),
    );
  });

  test('all the way back is the start, and all the way forth the end', () => {
    fc.assert(
      fc.property(fc.array(anyAction, { maxLength: 30 }), (actions) => {
        const end = actions.reduce<History>((state, one) => act(state, one), historyOf(start));
        let state = end;
        while (state.past.length > 0) state = undo(state);
        expect(state.present).toEqual(start);
        while (state.future.length > 0) state = redo(state);
        expect(state.present).toEqual(end.present);
      }),
    );
  });

  test('what is typed into one field is one step back', () => {
    const typed = ['P', 'P0', 'P03'].reduce<History>((state, text) => act(state, { type: 'codes', text }, 'codes'), historyOf(start));
    const other = act(typed, { type: 'name', name: 'x' }, 'name');
    expect(undo(undo(other)).present).toEqual(start);
  });

  test('after undoing, a new answer drops what was undone', () => {
    const two = act(act(historyOf(start), result('one', 'good')), result('two', 'good'));
    expect(act(undo(two), result('three', 'good')).future).toEqual([]);
  });
});

describe('where a job stands', () => {
  const belief = (id: string | null, probability: number) =>
    ({ hypotheses: [], causes: [{ id, probability }], families: [], evidence: [] }) as const;

  test('it searches until a cause is nine tenths sure, then repairs', () => {
    expect(stageOf(start, belief('a', 0.89)).name).toBe('search');
    expect(stageOf(start, belief('a', 0.9))).toEqual({ name: 'repair', cause: 'a', why: 'probability' });
    expect(stageOf(start, belief(null, 0.95)).name).toBe('search');
  });

  test('a cause that was seen is repaired whatever the belief', () => {
    const found = reduce(start, { type: 'answer', at: 1, answer: { kind: 'found', cause: 'b' } });
    expect(stageOf(found, belief('a', 0.95))).toEqual({ name: 'repair', cause: 'b', why: 'found' });
  });

  test('a repair that looks good goes to the proof; a code that returns goes back to the search', () => {
    const mended = reduce(start, { type: 'answer', at: 1, answer: { kind: 'repair', cause: 'a', outcome: 'gone' } });
    expect(stageOf(mended, null)).toEqual({ name: 'proof', cause: 'a' });
    expect(stageOf(reduce(mended, { type: 'answer', at: 2, answer: { kind: 'returned', cause: 'a' } }), null).name).toBe('search');
  });
});

test('renamed ids are carried over, unknown ones stay', () => {
  const job = answered(
    { type: 'symptom', id: 'old-shake', presence: 'present' },
    { type: 'replaced', part: 'old-part', when: 'just-before' },
    result('old-check', 'good'),
    { type: 'answer', at: 2, answer: { kind: 'cannot', action: 'old-check' } },
    { type: 'answer', at: 3, answer: { kind: 'returned', cause: 'old-cause' } },
    { type: 'answer', at: 4, answer: { kind: 'found', cause: 'unheard-of' } },
  );
  const renamed = withPresentIds(job, {
    causes: { 'old-cause': 'new-cause' },
    checks: { 'old-check': 'new-check' },
    symptoms: { 'old-shake': 'new-shake' },
    parts: { 'old-part': 'new-part' },
  });
  expect(renamed.inputs.symptoms).toEqual({ 'new-shake': 'present' });
  expect(renamed.inputs.replaced).toEqual([{ part: 'new-part', when: 'just-before' }]);
  expect(
    renamed.timeline.map((entry) =>
      'check' in entry ? entry.check : 'action' in entry ? entry.action : 'cause' in entry ? entry.cause : '',
    ),
  ).toEqual(['new-check', 'new-check', 'new-cause', 'unheard-of']);
  expect(withPresentIds(job, {})).toEqual(job);
});

describe('figures that are given to a job', () => {
  const given = {
    ...newJob('other', 0),
    inputs: {
      ...emptyInputs,
      codesText: 'P0302',
      codes: ['P0302'],
      cylinders: 4,
      firingOrder: [1, 3, 4, 2],
      trims: { idleBank1Percent: 20 },
    },
  };
  const from = reduce(given, {
    type: 'answer',
    at: 0,
    answer: { kind: 'result', check: 'compression-test', outcome: 'one-low', reading: null, before: false },
  });

  test('come on top of what it knows: the newer figure counts, what they do not say stays', () => {
    const mine = answered(
      { type: 'codes', text: 'P0301' },
      { type: 'trim', key: 'idleBank1Percent', value: 3 },
      { type: 'trim', key: 'at2500Bank1Percent', value: 2 },
      result('look', 'good'),
    );
    const both = reduce(mine, { type: 'given', from, at: 7 });
    expect(both.inputs).toEqual({
      ...mine.inputs,
      codesText: 'P0301, P0302',
      codes: ['P0301', 'P0302'],
      cylinders: 4,
      firingOrder: [1, 3, 4, 2],
      trims: { idleBank1Percent: 20, at2500Bank1Percent: 2 },
    });
    expect(both.timeline.map((entry) => [entry.id, entry.kind === 'result' && entry.check, entry.at])).toEqual([
      [1, 'look', 1],
      [2, 'compression-test', 7],
    ]);
    expect(both.nextEntry).toBe(3);
    expect([both.id, both.name]).toEqual([mine.id, mine.name]);
  });

  test('go back out in one step', () => {
    const history = historyOf(start);
    expect(undo(act(history, { type: 'given', from, at: 7 })).present).toBe(start);
  });

  test('given twice they say no more than once, but for the answers', () => {
    const once = reduce(start, { type: 'given', from: given, at: 7 });
    expect(reduce(once, { type: 'given', from: given, at: 8 })).toEqual(once);
  });
});
