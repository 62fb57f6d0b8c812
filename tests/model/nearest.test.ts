import { describe, expect, it } from 'vitest';
import { cycleThrough } from '../../src/model/cycle.ts';
import { didYouMean, nearest } from '../../src/model/nearest.ts';

describe('the nearest known word', () => {
  it('is the one with the fewest letters changed', () => {
    expect(nearest('worn-plug', ['worn-plugs', 'split-hose'])).toBe('worn-plugs');
    expect(didYouMean('Titel', ['title', 'tools'])).toBe(' Did you mean title?');
  });

  it('is none when nothing is near, or nothing is known', () => {
    expect(nearest('zzzzzzzz', ['worn-plugs'])).toBeNull();
    expect(nearest('anything', [])).toBeNull();
    expect(didYouMean('zzzzzzzz', ['worn-plugs'])).toBe('');
  });
});

describe('a cycle', () => {
  const next = (edges: Record<string, string[]>) => (id: string) => edges[id] ?? [];

  it('is told as the chain that leads back', () => {
    expect(cycleThrough('a', next({ a: ['b'], b: ['c'], c: ['a'] }))).toEqual(['a', 'b', 'c']);
    expect(cycleThrough('a', next({ a: ['a'] }))).toEqual(['a']);
  });

  it('is none where the relation only leads on, or runs round elsewhere', () => {
    expect(cycleThrough('a', next({ a: ['b', 'c'], b: ['c'], c: [] }))).toBeNull();
    expect(cycleThrough('a', next({ a: ['b'], b: ['c'], c: ['b'] }))).toBeNull();
  });
});
