import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** In which order the rooms' tests are run, and the files that take seconds, which come after all others. */
const rooms = ['argument', 'sheet', 'journal'];
const slow = ['slips', 'one-solution', 'kernel'];

const rank = ({ moduleId }: TestSpecification): number => {
  const [room, file] = moduleId.split('/').slice(-2);
  return rooms.length * slow.indexOf(file.replace('.test.ts', '')) + rooms.indexOf(room);
};

/** Quick files of the room itself first: what kills a mutant there saves the others. */
class QuickFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return [...files].sort((a, b) => rank(a) - rank(b) || a.moduleId.localeCompare(b.moduleId));
  }
}

/** The quick tests that bear on the rooms that are mutated, with one seed for all mutants. */
export default defineConfig({
  test: {
    include: ['tests/{argument,sheet,journal}/*.test.ts'],
    exclude: ['tests/journal/bytes.test.ts'],
    setupFiles: ['tests/mutation/setup.ts'],
    env: { INKLING_SEED: '71' },
    sequence: { sequencer: QuickFirst },
    testTimeout: 60_000,
    silent: true,
  },
});
