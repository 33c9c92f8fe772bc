import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/deep/**', 'tests/bench/**'],
    maxWorkers: 2,
    testTimeout: 30_000,
  },
});
