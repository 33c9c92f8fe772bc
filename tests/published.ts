import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Where the published checks and open data lie: outside the repository, since the sets have their own licences. */
export const publishedFolder =
  process.env.INKLING_PUBLISHED ?? fileURLToPath(new URL('../../shared/published', import.meta.url));

/** Whether the folder is there; tests that need it are skipped where it is not. */
export const hasPublished = existsSync(publishedFolder);

/** For the name of a test that reads the folder: says so where it is skipped. */
export const publishedNote = hasPublished ? '' : ' (skipped: no ../shared)';

/** The grids of a published set, one a line, comments and empty lines left out. */
export function readPublishedSet(name: string): string[] {
  return readFileSync(`${publishedFolder}/data/${name}`, 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'));
}
