import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['src/**/*.test.ts', 'demo/**/*.test.ts', 'test/**/*.test.ts'],
    exclude: ['test/fault/**', 'test/browser/**', 'node_modules/**'],
    testTimeout: 120_000,
    pool: 'forks',
  },
});
