import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    dir: 'tests',
    globalSetup: ['tests/built-site.ts'],
    testTimeout: 30_000,
    hookTimeout: 60_000,
  },
});
