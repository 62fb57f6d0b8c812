import { defineConfig } from 'vitest/config';

/**
 * The tests that `npm run mutate` tries mutants against: those of pure code, without a site, a browser or a second try. Fuzz
 * and whole situations would run for a minute at every mutant; a fault that they alone find wants a test that says what it is.
 */
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    dir: 'tests',
    include: ['**/engine/**/*.test.ts', '**/model/**/*.test.ts'],
    exclude: ['**/loader-fuzz.test.ts'],
    // One in five of the random models that the search is held against: all of them would take minutes for each mutant.
    testNamePattern: /^(?!.*\(part [1-4] of)/,
    testTimeout: 300_000,
  },
});
