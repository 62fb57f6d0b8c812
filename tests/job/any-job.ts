/** Arbitrary jobs and actions for the property tests. */
import fc from 'fast-check';
import { type Action, type Answer, type Job, newJob, reduce } from '../../src/job/state.ts';

const id = fc.constantFrom('worn-spark-plugs', 'vacuum-hose-leak', 'swap-coils', 'smoke-test', 'shakes-at-idle', 'no-such-thing', 'a1');
const orNull = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null });
const text = fc.oneof(fc.string({ maxLength: 40 }), fc.string({ unit: 'binary', maxLength: 40 }));
const number = fc.double({ min: -500, max: 20_000, noNaN: true });
const presence = fc.constantFrom('present' as const, 'absent' as const);

export const anyAnswer: fc.Arbitrary<Answer> = fc.oneof(
  fc.record({ kind: fc.constant('result' as const), check: id, outcome: id, reading: orNull(number), before: fc.boolean() }),
  fc.record({ kind: fc.constantFrom('cannot' as const, 'aside' as const), action: id }),
  fc.record({ kind: fc.constant('found' as const), cause: orNull(id) }),
  fc.record({ kind: fc.constant('repair' as const), cause: orNull(id), outcome: fc.constantFrom('gone' as const, 'still-there' as const) }),
  fc.record({ kind: fc.constant('returned' as const), cause: orNull(id) }),
  fc.record({ kind: fc.constant('ended' as const), how: fc.constantFrom('proven' as const, 'handed-over' as const, 'given-up' as const) }),
);

const given: Job = {
  ...newJob('given', 0),
  inputs: { ...newJob('given', 0).inputs, codesText: 'P0301', codes: ['P0301'], cylinders: 4, trims: { idleBank1Percent: 20 } },
  timeline: [{ id: 1, at: 0, note: '', kind: 'result', check: 'smoke-test', outcome: 'a1', reading: null, before: false }],
  nextEntry: 2,
};

export const anyAction: fc.Arbitrary<Action> = fc.oneof(
  fc.record({ type: fc.constant('name' as const), name: text }),
  fc.record({ type: fc.constant('codes' as const), text: fc.oneof(text, fc.constantFrom('P0301, P0302', '43 01 01 71', '')) }),
  fc.record({ type: fc.constant('trait' as const), trait: id, value: orNull(id) }),
  fc.record({ type: fc.constant('cylinders' as const), cylinders: orNull(fc.integer({ min: 1, max: 16 })) }),
  fc.constantFrom<Action>(
    { type: 'firing-order', order: [1, 3, 4, 2], bank1: [] },
    { type: 'firing-order', order: [1, 4, 2, 5, 3, 6], bank1: [1, 2, 3] },
  ),
  fc.record({ type: fc.constantFrom('recent-work' as const, 'tool' as const), id, on: fc.boolean() }),
  fc.record({ type: fc.constantFrom('symptom' as const, 'condition' as const), id, presence: orNull(presence) }),
  fc.record({
    type: fc.constant('freeze-frame' as const),
    key: fc.constantFrom('engineSpeedRpm' as const, 'loadPercent' as const),
    value: orNull(number),
  }),
  fc.record({ type: fc.constant('trim' as const), key: fc.constantFrom('idleBank1Percent' as const), value: orNull(number) }),
  fc.record({
    type: fc.constant('replaced' as const),
    part: id,
    when: orNull(fc.constantFrom('since-the-code' as const, 'just-before' as const, 'long-before' as const)),
  }),
  fc.record({ type: fc.constant('hourly-rate' as const), rate: orNull(fc.integer({ min: 0, max: 1000 })) }),
  fc.record({ type: fc.constant('engine-warm' as const), warm: orNull(fc.boolean()) }),
  fc.record({ type: fc.constant('model-year' as const), year: orNull(fc.integer({ min: 1980, max: 2030 })) }),
  fc.record({ type: fc.constant('units' as const), units: fc.constantFrom('metric' as const, 'customary' as const) }),
  fc.record({
    type: fc.constant('answer' as const),
    answer: anyAnswer,
    at: fc.integer({ min: 0, max: 2e12 }),
    note: fc.string({ maxLength: 20 }),
  }),
  fc.record({ type: fc.constant('given' as const), from: fc.constant(given), at: fc.integer({ min: 0, max: 2e12 }) }),
  fc.record({ type: fc.constant('revise' as const), id: fc.integer({ min: 1, max: 8 }), answer: anyAnswer }),
  fc.record({ type: fc.constant('remove' as const), id: fc.integer({ min: 1, max: 8 }) }),
  fc.record({
    type: fc.constant('proof' as const),
    change: fc.record({ clean: fc.integer({ min: 0, max: 9999 }), returnsBefore: orNull(fc.nat(30)) }),
  }),
  fc.record({ type: fc.constant('tick' as const), line: fc.constantFrom('clear', 'relearn:0', 'monitor:misfire'), on: fc.boolean() }),
);

export const anyJob: fc.Arbitrary<Job> = fc
  .array(anyAction, { maxLength: 25 })
  .map((actions) => actions.reduce(reduce, newJob('a-job', 1_700_000_000_000)));
