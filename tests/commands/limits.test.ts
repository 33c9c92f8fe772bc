import { expect, test } from 'vitest';
import { essayGrid } from './grids.ts';
import { inkling } from './run-inkling.ts';

/** Limits as they are set here, so that the tests stay quick. */
const environment = { INKLING_FILE_LIMIT: '50000', INKLING_LINE_LIMIT: '2000' };

test('a file over the limit: told at once, with the way to raise it, and read when it is raised', async () => {
  const input = `${'words and words\n'.repeat(20_000)}`;
  const { code, stdout, stderr } = await inkling(['check'], { input, environment });
  expect([code, stdout]).toEqual([2, '']);
  expect(stderr).toContain('expected at most 50,000 in all');
  expect(stderr).toContain('INKLING_FILE_LIMIT sets how many are read, now 50,000');
  const more = await inkling(['check'], { input, environment: { INKLING_FILE_LIMIT: '1000000' } });
  expect(more.stderr).not.toContain('in all');
});

test('a large file in no known form is refused in time that grows with its size alone', async () => {
  const input = `${'x'.repeat(80)}\n`.repeat(110_000);
  const began = performance.now();
  const { code } = await inkling(['check'], { input });
  expect(code).toBe(2);
  expect(performance.now() - began).toBeLessThan(20_000);
});

test('a line over the limit is bad, and the others are answered', async () => {
  const input = `${essayGrid}\n${'.'.repeat(5000)}\n${essayGrid}\n`;
  const { code, stdout, stderr } = await inkling(['check', '--jsonl'], { input, environment });
  expect(code).toBe(1);
  expect(stdout.trim().split('\n')).toHaveLength(2);
  expect(stderr).toContain('stdin:2:');
  expect(stderr).toContain('INKLING_LINE_LIMIT sets how many are read, now 2,000');
});

test.each(['', '10', 'many', '-5', '99999999999'])('a limit of %j counts as not set', async (value) => {
  const { code } = await inkling(['check'], { input: essayGrid, environment: { INKLING_FILE_LIMIT: value } });
  expect(code).toBe(0);
});
