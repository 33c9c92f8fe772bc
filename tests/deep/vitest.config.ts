import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/deep/**/*.test.ts', 'tests/bench/**/*.test.ts'],
    maxWorkers: 2,
    fileParallelism: false,
    testTimeout: 1_800_000,
    hookTimeout: 600_000,
  },
});
