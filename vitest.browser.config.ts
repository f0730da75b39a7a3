import { defineConfig } from 'vitest/config';

/** The page in a real browser against the real program. One file at a time: each starts a shop of its own. */
export default defineConfig({
  test: {
    include: ['test/browser/**/*.browser.test.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: 'forks',
    fileParallelism: false,
  },
});
