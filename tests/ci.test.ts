import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const counter = fileURLToPath(new URL('../.ci/count.mjs', import.meta.url));

interface Step {
  readonly code: number;
  /** Passed, failed, skipped, and files that could not be loaded; absent where no report was written. */
  readonly report?: readonly [passed: number, failed: number, skipped: number, unloaded: number];
}

/** What CI says last of some steps, and its exit code. */
function count(steps: Readonly<Record<string, Step>>): { last: string; code: number | null } {
  const folder = mkdtempSync(join(tmpdir(), 'inkling-count-'));
  try {
    for (const [name, { code, report }] of Object.entries(steps)) {
      writeFileSync(join(folder, `${name}.code`), `${code}\n`);
      if (!report) continue;
      const [passed, failed, skipped, unloaded] = report;
      const testResults = [
        ...Array.from({ length: unloaded }, () => ({ status: 'failed', assertionResults: [] })),
        {
          status: failed > 0 ? 'failed' : 'passed',
          assertionResults: [{ status: failed > 0 ? 'failed' : 'passed' }],
        },
      ];
      const numbers = {
        numPassedTests: passed,
        numFailedTests: failed,
        numPendingTests: skipped,
        numTodoTests: 0,
      };
      writeFileSync(join(folder, `${name}.json`), JSON.stringify({ ...numbers, testResults }));
    }
    const { stdout, status } = spawnSync(process.execPath, [counter, folder, ...Object.keys(steps)], {
      encoding: 'utf8',
    });
    return { last: stdout.trimEnd().split('\n').at(-1) ?? '', code: status };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test.each<[string, Record<string, Step>, string, number]>([
  [
    'all is well',
    {
      install: { code: 0 },
      test: { code: 0, report: [7, 0, 2, 0] },
      deep: { code: 0, report: [3, 0, 0, 0] },
    },
    '10 passed, 0 failed',
    0,
  ],
  ['tests fail', { test: { code: 1, report: [7, 2, 0, 0] } }, '7 passed, 2 failed', 1],
  ['a file does not load', { test: { code: 1, report: [7, 0, 0, 1] } }, '7 passed, 1 failed', 1],
  [
    'types or lint fail, so that no test runs',
    { test: { code: 2 }, deep: { code: 0, report: [3, 0, 0, 0] } },
    '3 passed, 1 failed',
    1,
  ],
  ['tests pass but the command fails', { test: { code: 1, report: [7, 0, 0, 0] } }, '7 passed, 1 failed', 1],
  [
    'a step runs out of time',
    { test: { code: 0, report: [7, 0, 0, 0] }, deep: { code: 124 } },
    '7 passed, 1 failed',
    1,
  ],
  ['everything is skipped', { test: { code: 0, report: [0, 0, 9, 0] } }, '0 passed, 0 failed', 1],
])('CI counts what really ran: %s', (_name, steps, last, code) => {
  expect(count(steps)).toEqual({ last, code });
});
