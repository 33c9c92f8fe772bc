import { expect, test } from 'vitest';
import { completes } from '../commands/grids.ts';
import { inkling, jsonLines } from '../commands/run-inkling.ts';
import { hasPublished, publishedFolder, publishedNote, readPublishedSet } from '../published.ts';

// Source: G. Royle's collection of 17-clue grids, by published/README.md: each has one solution.
test.skipIf(!hasPublished)(
  `check --jsonl says one of every seventeen-clue grid, in order, with its solution${publishedNote}`,
  async () => {
    const name = 'seventeen-clue-49151.txt';
    const grids = readPublishedSet(name);
    expect(grids.length).toBe(49_151);
    const { code, stdout, stderr } = await inkling(['check', '--jsonl', `${publishedFolder}/data/${name}`]);
    expect([code, stderr]).toEqual([0, '']);
    const answers = jsonLines<{ puzzle: string; verdict: string; solution: string; givens: number }>(stdout);
    expect(answers.map(({ puzzle }) => puzzle)).toEqual(grids);
    const wrong = answers.filter(
      ({ puzzle, verdict, solution, givens }) =>
        verdict !== 'one' || givens !== 17 || !completes(puzzle, solution),
    );
    expect(wrong).toEqual([]);
  },
);
