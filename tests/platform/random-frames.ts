/** A seeded source of numbers, for tests (Mulberry32, public domain). */
export function seededRandom(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * below);
  };
}

/** SGR parameters of each depth of colour, and combinations as a theme might use them. */
const renditions = [
  '1',
  '2',
  '3',
  '4',
  '7',
  '9',
  '1;9',
  '2;4',
  '31',
  '96',
  '30;43',
  '30;103',
  '1;9;91',
  '38;5;209',
  '48;5;236',
  '38;5;16;48;5;214',
  '38;2;86;180;233',
  '1;38;2;240;116;58;48;2;43;43;43',
  '38;2;0;0;0;48;2;230;159;0',
  '38:2::0:112:74',
  '48:5:17',
  '0',
  '22',
  '24',
  '39',
  '49',
];
const pieces = [
  '1',
  '8',
  'r4',
  ' ',
  '  ',
  '│',
  '┏━┓',
  '▐',
  '▌',
  '·',
  '×',
  'é',
  'e\u0301',
  '本',
  '日本',
  '   ',
];

/** How many columns each of the pieces takes (Unicode Standard Annex 11: W is two, marks are none). */
const width = (piece: string): number => {
  let columns = 0;
  for (const sign of piece) columns += sign === '\u0301' ? 0 : '日本'.includes(sign) ? 2 : 1;
  return columns;
};

/** One random line of styled text in at most this many columns; it ends as plain as it began. */
export function randomLine(columns: number, random: (below: number) => number): string {
  let line = '';
  let used = 0;
  const target = random(4) === 0 ? 0 : random(columns + 1);
  while (used < target) {
    if (random(3) === 0) line += `\x1b[${renditions[random(renditions.length)]}m`;
    const piece = pieces[random(pieces.length)]!;
    if (used + width(piece) > target) {
      line += ' ';
      used++;
      continue;
    }
    line += piece;
    used += width(piece);
  }
  return `${line}\x1b[0m`;
}

/** A frame like the one before but for some lines, as lines of styled text. */
export function changedLines(
  lines: readonly string[],
  columns: number,
  random: (below: number) => number,
): string[] {
  const all = random(8) === 0;
  return lines.map((line) => (all || random(5) === 0 ? randomLine(columns, random) : line));
}
