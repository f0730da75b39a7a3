import { defineConfig } from 'vitest/config';

/** Kill it, cut it, change it, fill it. WITNESSMARK_FAULT=all runs every offset and every kill. */
export default defineConfig({
  test: {
    include: ['test/fault/**/*.fault.test.ts'],
    testTimeout: 3_600_000,
    hookTimeout: 120_000,
    pool: 'forks',
    fileParallelism: false,
  },
});
