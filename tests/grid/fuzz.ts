import { type Layout, makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import type { Grid } from '../../source/grid/position.ts';
import { type GridError, readGrid, readGridLine, readGrids } from '../../source/grid/read.ts';
import { splitLines } from '../../source/grid/source-lines.ts';
import { gridForms, writeGrid } from '../../source/grid/write.ts';
import { numbersFrom } from './fixtures.ts';

const layouts: readonly Layout[] = [
  plain,
  plain,
  plain,
  makeLayout({ name: '4x4', size: 4, boxOf: rectangularBoxes(2, 2) }),
  makeLayout({ name: '16x16', size: 16, boxOf: rectangularBoxes(4, 4) }),
];

/** Signs that mean something to a reader, and some that mean nothing to anyone. */
const spices = [
  ...'0123456789.*_-?|+=:;,"\'()[]{}#>`~\t \n\r',
  '\r\n',
  '---------',
  '---+---+---',
  '│',
  '─',
  '┼',
  '```\n',
  '> ',
  '# ',
  '""',
  '\ufeff',
  '\u00a0',
  '\u200b',
  '\u202e',
  '\u001b[2J',
  '\u0000',
  '\u0085',
  '\u2028',
  '\ud800',
  '\udc00',
  '５',
  '．',
  '😀',
  'e\u0301',
  '(12)',
  '()',
  'A',
  'g',
];

/** Processor time of this process in milliseconds: other work on the machine does not count. */
export function cpuTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

type Numbers = () => number;
const below = (random: Numbers, limit: number): number => Math.floor(random() * limit);
const pick = <T>(random: Numbers, from: readonly T[]): T => from[below(random, from.length)];

function randomGrid(random: Numbers, layout: Layout): Grid {
  const filled = random();
  const givens = Array.from({ length: layout.cellCount }, () =>
    random() < filled ? 1 + below(random, layout.size) : 0,
  );
  if (random() < 0.5) return { layout, givens };
  const marks = givens.map((given) => (given === 0 ? below(random, layout.allDigits + 1) : 0));
  return { layout, givens, marks };
}

function randomText(random: Numbers): string {
  const length = below(random, 400);
  const kind = below(random, 3);
  return Array.from({ length }, () => {
    if (kind === 0) return String.fromCharCode(below(random, 256));
    if (kind === 1) return String.fromCharCode(below(random, 65536));
    return pick(random, spices);
  }).join('');
}

function mutate(random: Numbers, text: string): string {
  const at = below(random, text.length + 1);
  const to = Math.min(text.length, at + below(random, 12));
  switch (below(random, 8)) {
    case 0:
      return text.slice(0, at);
    case 1:
      return text.slice(at);
    case 2:
      return text.slice(0, at) + text.slice(to);
    case 3:
      return text.slice(0, at) + text.slice(at, to).repeat(2) + text.slice(to);
    case 4:
      return text.slice(0, at) + pick(random, spices) + text.slice(at + 1);
    case 5:
      return text.replaceAll(pick(random, ['.', ' ', '|', '\n', '-', ',']), pick(random, spices));
    case 6:
      return text + pick(random, ['', '\n', '\n\n']) + text.slice(at);
    default:
      return text.slice(0, at) + pick(random, spices) + text.slice(at);
  }
}

/** One input of the fuzz, as its number in the run says. */
function fuzzedInput(random: Numbers): { text: string; layout: Layout } {
  const layout = pick(random, layouts);
  if (random() < 0.15) return { text: randomText(random), layout };
  const remarks = random() < 0.2 ? [randomText(random)] : [];
  let text = writeGrid(pick(random, gridForms), randomGrid(random, layout), remarks);
  for (let times = below(random, 4); times > 0; times -= 1) text = mutate(random, text);
  // A run of doublings must not grow without end: long inputs have a test of their own.
  return { text: text.slice(0, 20_000), layout };
}

/** What is wrong with an error's place or sentence; null if nothing is. */
function flawOf(error: GridError, text: string): string | null {
  const lines = splitLines(text.startsWith('\ufeff') ? text.slice(1) : text);
  if (!(error.line >= 1 && error.line <= lines.length + 1)) return `line ${error.line}`;
  const length = [...(lines[error.line - 1] ?? '')].length;
  if (!(error.column >= 1 && error.column <= length + 1)) return `column ${error.column} of ${length}`;
  if (/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\p{Cs}]/u.test(error.message + error.found))
    return 'unsafe text';
  if (error.found === '' || error.expected === '' || !error.message.endsWith('.')) return 'no sentence';
  if (error.code === 'ambiguous' && !((error.readings?.length ?? 0) >= 2)) return 'no two readings';
  return null;
}

function read(text: string, layout: Layout): { grids: Grid[]; flaws: string[] } {
  const results = [
    readGrid(text, { layout }),
    readGridLine(splitLines(text)[0], 1, { layout }),
    ...readGrids(text, { layout }),
  ];
  const grids: Grid[] = [];
  const flaws: string[] = [];
  for (const result of results) {
    if (result.ok) {
      if (result.value) grids.push(result.value.grid);
      continue;
    }
    const flaw = flawOf(result.error, text);
    if (flaw) flaws.push(flaw);
  }
  return { grids, flaws };
}

function isWhole({ givens, marks, layout }: Grid): boolean {
  return (
    givens.length === layout.cellCount &&
    givens.every((digit) => Number.isInteger(digit) && digit >= 0 && digit <= layout.size) &&
    (marks === undefined ||
      (marks.length === layout.cellCount &&
        marks.some((mask) => mask !== 0) &&
        marks.every((mask, cell) => (mask & ~layout.allDigits) === 0 && (mask === 0 || givens[cell] === 0))))
  );
}

export interface FuzzTally {
  readonly grids: number;
  readonly errors: number;
  /** The most that one input took in all three readers, in milliseconds. */
  readonly slowest: number;
  readonly failures: readonly string[];
}

/** Reads `count` fuzzed inputs with every reader. */
export function fuzzReaders(count: number, seed: number): FuzzTally {
  const random = numbersFrom(seed);
  const failures: string[] = [];
  let grids = 0;
  let slowest = 0;
  for (let index = 0; index < count; index += 1) {
    const { text, layout } = fuzzedInput(random);
    const fail = (why: string) =>
      failures.push(`input ${index} on ${layout.name}: ${why}: ${JSON.stringify(text)}`);
    try {
      const before = performance.now();
      const found = read(text, layout);
      let took = performance.now() - before;
      // What the clock finds slow is measured again: the machine may have been busy with something else.
      for (let round = 0; round < 3 && took > 50; round += 1) {
        const start = cpuTime();
        read(text, layout);
        took = Math.min(took, cpuTime() - start);
      }
      found.flaws.forEach(fail);
      if (!found.grids.every(isWhole)) fail('half a grid');
      if (found.grids.length > 0) grids += 1;
      slowest = Math.max(slowest, took);
      if (took > 100) fail(`${took.toFixed(0)} ms`);
    } catch (error) {
      fail(`threw ${String(error)}`);
    }
  }
  return { grids, errors: count - grids, slowest, failures };
}
