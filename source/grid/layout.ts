/** A cell's index: `row * size + column`, both from 0. */
export type Cell = number;
/** A digit, from 1 to the layout's size. */
export type Digit = number;
/** A digit in a cell, as one number: `cell * size + digit - 1`. */
export type Candidate = number;
/** Digits as bits: bit `d - 1` stands for digit `d`. */
export type DigitMask = number;

export type HouseKind = 'row' | 'column' | 'box' | 'diagonal' | 'extra';

/** A set of `size` cells that holds every digit exactly once. */
export interface House {
  readonly index: number;
  readonly kind: HouseKind;
  /** Counts from 1 within its kind. */
  readonly number: number;
  /** As people write it: `r4`, `c7`, `b5`, `d1`, `x2`. */
  readonly name: string;
  readonly cells: readonly Cell[];
}

/**
 * A board as data: how many digits, which cells form houses. Everything above works on houses and cells,
 * so another layout is another value of this type and nothing else.
 */
export interface Layout {
  readonly name: string;
  /** Number of digits, rows and columns: 9 on the plain layout. */
  readonly size: number;
  readonly cellCount: number;
  readonly houses: readonly House[];
  /** For each cell the houses that it lies in, by index, in the order of `houses`. */
  readonly housesOf: readonly (readonly number[])[];
  /** For each cell the other cells that share a house with it, ascending. */
  readonly peers: readonly (readonly Cell[])[];
  /** `sees[a * cellCount + b]` is 1 where a and b are different cells of one house. */
  readonly sees: Uint8Array;
  /** For each cell the number of its box, from 0. */
  readonly boxOf: readonly number[];
  /** For each candidate its cell: what `cellOf` works out, for where it is asked for at every turn. */
  readonly cellAt: Uint16Array;
  /** All digits, as bits. */
  readonly allDigits: DigitMask;
}

/** What sets one layout apart from another of its size. */
export interface LayoutPlan {
  readonly name: string;
  readonly size: number;
  /** For each cell, row by row, the number of its box from 0; each number `size` times. */
  readonly boxOf: readonly number[];
  /** Further houses beyond rows, columns and boxes; `size` cells each. */
  readonly extras?: readonly { readonly kind: 'diagonal' | 'extra'; readonly cells: readonly Cell[] }[];
}

const letterOf = { row: 'r', column: 'c', box: 'b', diagonal: 'd', extra: 'x' } as const;

/** Boxes of `rows` x `columns` cells, numbered row by row: the `boxOf` of a layout of size `rows * columns`. */
export function rectangularBoxes(rows: number, columns: number): number[] {
  const size = rows * columns;
  const across = size / columns;
  return Array.from({ length: size * size }, (_, cell) => {
    const row = Math.floor(cell / size);
    return Math.floor(row / rows) * across + Math.floor((cell % size) / columns);
  });
}

/** Whether these are so many cells, no two the same. */
function areDifferent(cells: readonly Cell[], size: number, cellCount: number): boolean {
  if (cells.length !== size) return false;
  for (let i = 0; i < size; i += 1) {
    if (!(cells[i] >= 0 && cells[i] < cellCount) || cells.indexOf(cells[i]) !== i) return false;
  }
  return true;
}

/**
 * Builds a layout. Throws a RangeError on a plan whose boxes or extra houses do not have `size` different
 * cells each: plans are written by programmers or checked by the layout reader first.
 */
export function makeLayout(plan: LayoutPlan): Layout {
  const { name, size, boxOf } = plan;
  const cellCount = size * size;
  const houses: House[] = [];
  // Every start makes a layout, before anything is compiled well: loops by index leave the least behind.
  const add = (kind: HouseKind, number: number, cells: readonly Cell[]) => {
    const isSure = kind === 'row' || kind === 'column';
    if (!isSure && !areDifferent(cells, size, cellCount)) {
      throw new RangeError(`${name}: ${kind} ${number} does not have ${size} different cells`);
    }
    houses.push({ index: houses.length, kind, number, name: `${letterOf[kind]}${number}`, cells });
  };
  const lists = (): Cell[][] => Array.from({ length: size }, () => []);
  const [rows, columns, boxes] = [lists(), lists(), lists()];
  for (let cell = 0; cell < cellCount; cell += 1) {
    rows[Math.floor(cell / size)].push(cell);
    columns[cell % size].push(cell);
    boxes[boxOf[cell]]?.push(cell);
  }
  for (let i = 0; i < size; i += 1) add('row', i + 1, rows[i]);
  for (let i = 0; i < size; i += 1) add('column', i + 1, columns[i]);
  for (let i = 0; i < size; i += 1) add('box', i + 1, boxes[i]);
  const counters = { diagonal: 0, extra: 0 };
  for (const extra of plan.extras ?? []) {
    counters[extra.kind] += 1;
    add(extra.kind, counters[extra.kind], extra.cells);
  }
  const housesOf: number[][] = [];
  for (let cell = 0; cell < cellCount; cell += 1) {
    housesOf.push([Math.floor(cell / size), size + (cell % size), 2 * size + boxOf[cell]]);
  }
  for (let house = 3 * size; house < houses.length; house += 1) {
    for (let i = 0; i < size; i += 1) housesOf[houses[house].cells[i]].push(house);
  }
  const sees = new Uint8Array(cellCount * cellCount);
  const peers: Cell[][] = [];
  for (let a = 0; a < cellCount; a += 1) {
    const start = a * cellCount;
    const own = housesOf[a];
    for (let k = 0; k < own.length; k += 1) {
      const { cells } = houses[own[k]];
      for (let i = 0; i < size; i += 1) sees[start + cells[i]] = 1;
    }
    sees[start + a] = 0;
    const others: Cell[] = [];
    const end = start + cellCount;
    for (let b = sees.indexOf(1, start); b >= 0 && b < end; b = sees.indexOf(1, b + 1))
      others.push(b - start);
    peers.push(others);
  }
  const cellAt = new Uint16Array(cellCount * size);
  for (let cell = 0; cell < cellCount; cell += 1) cellAt.fill(cell, cell * size, (cell + 1) * size);
  return { name, size, cellCount, houses, housesOf, peers, sees, boxOf, cellAt, allDigits: 2 ** size - 1 };
}

/** The layout that nearly every grid uses: 9x9 with nine 3x3 boxes. */
export const plain: Layout = makeLayout({ name: 'plain', size: 9, boxOf: rectangularBoxes(3, 3) });

/** The cell of a candidate. */
export const cellOf = (layout: Layout, candidate: Candidate): Cell => Math.floor(candidate / layout.size);

/** The digit of a candidate, from 1. */
export const digitOf = (layout: Layout, candidate: Candidate): Digit => (candidate % layout.size) + 1;

/** The candidate that puts a digit (from 1) into a cell. */
export const candidateOf = (layout: Layout, cell: Cell, digit: Digit): Candidate =>
  cell * layout.size + digit - 1;

/** Whether two candidates cannot both be true: two digits in one cell, or one digit twice in a house. */
export function conflicts(layout: Layout, a: Candidate, b: Candidate): boolean {
  const { size, cellCount, cellAt, sees } = layout;
  const cellA = cellAt[a];
  const cellB = cellAt[b];
  if (cellA === cellB) return a !== b;
  return a - cellA * size === b - cellB * size && sees[cellA * cellCount + cellB] === 1;
}

const statements = new WeakMap<Layout, readonly (readonly Candidate[])[]>();

/**
 * Every exactly-one statement of a layout, as the candidates of which one is true, ascending by cell or
 * digit: at `cell`, that the cell has one digit; at `cellCount + house * size + digit - 1`, that the house
 * has the digit in one cell.
 */
export function statementsOf(layout: Layout): readonly (readonly Candidate[])[] {
  const known = statements.get(layout);
  if (known) return known;
  const digits = Array.from({ length: layout.size }, (_, i) => i + 1);
  const made = [
    ...layout.peers.map((_, cell) => digits.map((digit) => candidateOf(layout, cell, digit))),
    ...layout.houses.flatMap(({ cells }) =>
      digits.map((digit) => cells.map((cell) => candidateOf(layout, cell, digit))),
    ),
  ];
  statements.set(layout, made);
  return made;
}
