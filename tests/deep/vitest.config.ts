import { defineConfig } from 'vitest/config';

const patient = { testTimeout: 1_800_000, hookTimeout: 600_000 };

/** The long runs, two files at a time; then the benchmarks, each by itself. */
export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      {
        test: {
          ...patient,
          name: 'deep',
          include: ['tests/deep/**/*.test.ts'],
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          ...patient,
          name: 'bench',
          include: ['tests/bench/**/*.test.ts'],
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
