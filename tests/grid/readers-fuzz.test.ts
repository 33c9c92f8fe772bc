import { describe, expect, it } from 'vitest';
import { readGrid, readGridLine, readGrids } from '../../source/grid/read.ts';
import { seed } from './fixtures.ts';
import { cpuTime, fuzzReaders } from './fuzz.ts';

console.log(`readers-fuzz.test.ts: seed ${seed}`);

describe('whatever is read gives a grid or a located error', () => {
  it('20,000 fuzzed inputs', { timeout: 120_000 }, () => {
    const { grids, errors, slowest, failures } = fuzzReaders(20_000, seed);
    console.log(`${grids} gave a grid, ${errors} an error; the slowest took ${slowest.toFixed(1)} ms`);
    expect(failures.slice(0, 5)).toEqual([]);
    expect(grids).toBeGreaterThan(500);
    expect(errors).toBeGreaterThan(5_000);
  });

  /** Pieces that fill a text up to the limit for one grid. */
  const pieces: Readonly<Record<string, string>> = {
    signs: '.',
    commas: ',',
    bars: '|',
    dashes: '-',
    spaces: ' ',
    'quotation marks': '"',
    parentheses: '(',
    quoting: '> ',
    newlines: '\n',
    'lines of one letter': 'x\n',
    'lines of one digit': '1\n',
    'blocks of one digit': '1\n\n',
    'lines of dashes': '---------\n',
    'rows and lines of dashes': '1.......9\n---------\n',
    'code fences': '```\n',
    remarks: '#\n',
    'grids one a line': `${'.'.repeat(81)}\n`,
    'blocks of nearly a grid': `${'.........\n'.repeat(8)}\n`,
    'blocks of a grid': `${'.........\n'.repeat(9)}\n`,
    'rows of tabs': '\t\t\t\t\t\t\t\t\n',
  };
  for (const [name, piece] of Object.entries(pieces)) {
    it(`within 100 ms: 20,000 characters of ${name}`, () => {
      const text = piece.repeat(20_000).slice(0, 20_000);
      for (const reader of [() => readGrid(text), () => readGrids(text), () => readGridLine(text, 1)]) {
        let took = Number.POSITIVE_INFINITY;
        for (let round = 0; round < 5 && took > 100; round += 1) {
          const before = cpuTime();
          reader();
          took = Math.min(took, cpuTime() - before);
        }
        expect(took).toBeLessThan(100);
      }
    });
  }
});
