import { describe, expect, it } from 'vitest';
import { stepsText } from '../../source/commands/told-steps.ts';
import { pathOf } from '../../source/path/whole.ts';
import { Reader } from '../hint/reader.ts';
import { positionOf } from '../path/grids.ts';
import { setsIn } from '../path/told-twice.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';

const scale = Number(process.env.INKLING_DEEP ?? 1);

/** Whole paths as text, read by somebody who has the givens besides and nothing else; each set told from one side. */
describe.skipIf(!hasPublished)(
  `told paths of the published sets can be redone from text and grid${publishedNote}`,
  () => {
    it.each([
      ['top-95.txt', 95, 0.002],
      ['random-minimal-2000.txt', Math.ceil(200 * scale), 0.002],
      ['seventeen-clue-49151.txt', Math.ceil(200 * scale), 0.002],
      // Long refutations: some are told to be too many cases for prose.
      ['hard-187.txt', Math.ceil(5 * scale), 0.2],
    ] as const)('%s, %i of them', (name, count, share) => {
      let [steps, untold] = [0, 0];
      for (const line of readPublishedSet(name).slice(0, count)) {
        const { steps: path } = pathOf(positionOf(line.slice(0, 81)), { allNames: true });
        const reading = new Reader(line).read(stepsText(path, true));
        expect(reading.troubles.slice(0, 2), line).toEqual([]);
        expect(reading.solved, line).toBe(true);
        expect(setsIn(path).twice, line).toEqual([]);
        steps += reading.steps;
        untold += reading.untold;
      }
      console.log(`${name}: ${steps} steps, of which ${untold} are too many cases to be told one by one`);
      expect(untold).toBeLessThanOrEqual(steps * share);
    });
  },
);
