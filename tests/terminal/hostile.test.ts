import { expect, test } from 'vitest';
import { inColumns } from '../../source/text/columns.ts';
import { displayWidth } from '../../source/text/width.ts';
import { hostileText, showHostile } from '../pty/hostile.ts';
import { Random } from '../random.ts';

const seed = Number(process.env.INKLING_SEED ?? Date.now() % 2 ** 31);

// More of them in tests/deep/hostile.test.ts.
test(`1,000 hostile strings on the screen, in errors and exports (seed ${seed})`, async () => {
  const { strings, failures } = await showHostile(1000, new Random(seed));
  expect(failures).toEqual([]);
  expect(strings).toBe(1000);
});

test(`what is drawn takes one column a code point (seed ${seed})`, () => {
  const random = new Random(seed);
  for (let round = 0; round < 1000; round += 1) {
    const text = inColumns(hostileText(random));
    expect(text).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\p{Cs}]/u);
    for (const sign of text) expect(displayWidth(sign)).toBe(1);
    expect(inColumns(text)).toBe(text);
  }
  expect(inColumns('Grille nº 7, café, 漢字')).toBe('Grille nº 7, café, ??');
});
