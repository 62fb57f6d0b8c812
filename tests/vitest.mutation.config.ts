import { defineConfig } from 'vitest/config';

/**
 * The tests that `npm run mutate` tries mutants against: those of pure code, without a site, a browser or a second try. Left out is
 * what takes seconds for each mutant: fuzz, whole situations, and the planner held against brute force on hundreds of models. A fault
 * that they alone find wants a test that says what it is.
 */
const SLOW = ['exact', 'histories-lp', 'policy-tools', 'properties', 'published-examples', 'quick-policy'];

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    dir: 'tests',
    include: ['**/engine/**/*.test.ts', '**/model/**/*.test.ts'],
    exclude: ['**/loader-fuzz.test.ts', ...SLOW.map((name) => `**/engine/plan/${name}.test.ts`)],
    testTimeout: 300_000,
  },
});
