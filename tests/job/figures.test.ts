import fc from 'fast-check';
import { expect, test } from 'vitest';
import * as site from '../../src/compile/figures.ts';
import * as job from '../../src/job/view/figures.ts';

test('the job page rounds chances, money and minutes as every other page does', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 5000, noNaN: true }), (chance, amount) => {
      expect(job.percent(chance)).toBe(site.percent(chance));
      expect(job.money(amount)).toBe(site.money(amount));
      expect(job.duration(amount)).toBe(site.duration(amount));
      expect(job.plain(amount)).toBe(site.plain(amount));
    }),
  );
});

test('an axis has a handful of round marks up to its end', () => {
  expect(job.ticksTo(523, 5)).toEqual([0, 200, 400]);
  expect(job.ticksTo(100, 5)).toEqual([0, 20, 40, 60, 80, 100]);
});
