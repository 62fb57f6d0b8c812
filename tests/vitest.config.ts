import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    dir: 'tests',
    globalSetup: ['tests/built-site.ts', 'tests/trust/hostile-site.ts'],
    testTimeout: 30_000,
    hookTimeout: 120_000,
    // A browser on a busy machine may miss a moment once; a fault shows twice.
    retry: 1,
  },
});
