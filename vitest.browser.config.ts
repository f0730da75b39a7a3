import { defineConfig } from 'vitest/config';

/** The page in a real browser against the real program. One file at a time: each serves a copy of the invented shop. */
export default defineConfig({
  test: {
    globalSetup: ['test/browser/support/make-demo.ts'],
    include: ['test/browser/**/*.browser.test.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: 'forks',
    fileParallelism: false,
  },
});
