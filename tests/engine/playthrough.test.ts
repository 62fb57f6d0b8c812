/** A policy played on a car whose fault is known. */
import { describe, expect, test } from 'vitest';
import { formulate } from '../../src/engine/formulate.ts';
import type { PolicyNode } from '../../src/engine/plan/index.ts';
import { playThrough } from '../../src/engine/playthrough.ts';
import { cause, check, family, knowledge } from './tiny-knowledge.ts';

const facts = knowledge({
  families: [family('f', { a: 0.5, b: 0.3, c: 0.1 })],
  causes: { a: cause({ repair: { holds: 0.9, alsoFixes: { c: 0.5 } } }), b: cause({ hidden: 0.6 }), c: cause() },
  checks: [check('look', { a: 0.8, b: 0.2 }, 0.1)],
  codes: { P0001: { family: 'f' } },
});
const formulation = formulate({ codes: ['P0001'] }, facts);
const handOver: PolicyNode = { kind: 'hand-over', cost: 300 };
const mend = (id: string, next: PolicyNode | null): PolicyNode => ({
  kind: 'repair',
  action: formulation.repairIds.indexOf(id),
  cost: 60,
  next,
});
const look = (good: PolicyNode | null, bad: PolicyNode | null): PolicyNode => ({ kind: 'check', action: 0, cost: 4, next: [good, bad] });
const play = (policy: PolicyNode, truth: string, answers = {}) => playThrough(formulation, policy, truth, answers, facts);

describe('a policy on a car whose fault is known', () => {
  test('the check shows what is likeliest under the truth, and its repair ends the job', () => {
    expect(play(look(mend('b', handOver), mend('a', handOver)), 'a')).toEqual({
      steps: [
        { kind: 'check', id: 'look', result: 'bad', cost: 4 },
        { kind: 'repair', id: 'a', result: 'fixed', cost: 60 },
      ],
      cost: 64,
      fixed: true,
    });
  });
  test('what the situation says a check shows stands before what is likeliest', () => {
    const policy = look(mend('b', handOver), mend('a', handOver));
    expect(play(policy, 'a', { look: 'good' }).steps).toEqual([
      { kind: 'check', id: 'look', result: 'good', cost: 4 },
      { kind: 'repair', id: 'b', result: 'not-fixed', cost: 60 },
      { kind: 'hand-over', id: 'hand-over', result: null, cost: 300 },
    ]);
    expect(play(policy, 'b', { look: 'bad' }).steps[0]!.result).toBe('bad');
    expect(play(policy, 'a', { look: 'unheard-of' }).steps[0]!.result).toBe('bad');
  });
  test('handing over ends the job without a repair, at the sum of all that was paid', () => {
    expect(play(mend('b', handOver), 'a')).toEqual({
      steps: [
        { kind: 'repair', id: 'b', result: 'not-fixed', cost: 60 },
        { kind: 'hand-over', id: 'hand-over', result: null, cost: 300 },
      ],
      cost: 360,
      fixed: false,
    });
  });
  test('a fault that hides is played as one that is there to be seen', () => {
    expect(play(mend('b', handOver), 'b').fixed).toBe(true);
    expect(play(look(mend('b', handOver), handOver), 'b').steps[0]!.result).toBe('good');
  });
  test('a repair that reaches another fault in half of the cases does not count as reaching it', () => {
    expect(play(mend('a', handOver), 'c').fixed).toBe(false);
    expect(play(mend('c', handOver), 'c').fixed).toBe(true);
  });
  test('a policy without a branch for what is shown ends there', () => {
    expect(play(look(null, handOver), 'b')).toEqual({
      steps: [{ kind: 'check', id: 'look', result: 'good', cost: 4 }],
      cost: 4,
      fixed: false,
    });
  });
  test('a truth that is not among the causes is mended by no repair', () => {
    expect(play(mend('a', handOver), 'unheard-of').fixed).toBe(false);
  });
});
