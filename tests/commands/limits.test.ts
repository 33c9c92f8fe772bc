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

test('a grid over its limit, in lines and in a paste: told with the way to raise it, and read when it is raised', async () => {
  const rows = (essayGrid.match(/.{9}/g) ?? []).map((row) => [...row].join(' '.repeat(300)));
  const input = `${rows.join('\n')}\n`;
  expect(input.length).toBeGreaterThan(20_000);
  const { code, stderr } = await inkling(['check'], { input });
  expect(code).toBe(2);
  expect(stderr).toContain('expected at most 20,000');
  expect(stderr).toContain('INKLING_GRID_LIMIT sets how many are read');
  const raised = await inkling(['check'], { input, environment: { INKLING_GRID_LIMIT: '100000' } });
  expect([raised.code, raised.stderr]).toEqual([0, '']);

  const paste = { input: `paste\n${input}\nquit\n` };
  const pasted = await inkling(['--plain', essayGrid], paste);
  expect(pasted.stdout).toContain('INKLING_GRID_LIMIT sets how many are read.');
  const environmentOfMore = { INKLING_GRID_LIMIT: '100000' };
  const more = await inkling(['--plain', essayGrid], { ...paste, environment: environmentOfMore });
  expect(more.stdout).toContain('Pasted grid: 30 givens, one solution.');
});

test('a paste over the limit without a screen is told, and what comes after it is read as ever', async () => {
  const input = `paste\n${'1.......2\n'.repeat(400)}\nrow 1\nquit\n`;
  const environmentOfLess = { INKLING_PASTE_LIMIT: '2000' };
  const { stdout } = await inkling(['--plain', essayGrid], { input, environment: environmentOfLess });
  expect(stdout).toContain('INKLING_PASTE_LIMIT sets how much is.');
  expect(stdout).toContain('Row 1: 5, 3, open');
});

test('a path over the limit is refused without being read to its end, as a whole and as one of many lines', async () => {
  const path = (await inkling(['path', '--json', essayGrid])).stdout.trim();
  const endless = ' '.repeat(60_000);
  const whole = await inkling(['verify'], { input: path + endless, environment });
  expect([whole.code, whole.stdout]).toEqual([2, '']);
  expect(whole.stderr).toContain('INKLING_FILE_LIMIT sets how many are read, now 50,000');
  const lines = await inkling(['verify', '--jsonl'], {
    input: `${path}\n\n${path}${endless}\n${path}`,
    environment,
  });
  expect(lines.code).toBe(1);
  expect(lines.stdout.trim().split('\n')).toHaveLength(2);
  expect(lines.stderr).toContain('stdin:3: it has more than 50,000 characters');
});

test.each([
  ['--layout', 'the file is too long for a layout'],
  ['--config', 'the file is too long for settings'],
])('%s of a file without an end is refused', async (flag, words) => {
  const { code, stderr } = await inkling(['--plain', flag, '/dev/zero', essayGrid]);
  expect(code).toBe(2);
  expect(stderr).toContain(words);
});

test.each(['', '10', 'many', '-5', '99999999999'])('a limit of %j counts as not set', async (value) => {
  const { code } = await inkling(['check'], { input: essayGrid, environment: { INKLING_FILE_LIMIT: value } });
  expect(code).toBe(0);
});
