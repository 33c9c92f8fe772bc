/** The few words that a reader of told steps knows, with arithmetic of its own. */

export type Candidate = number;

/** Something that has exactly one of its places. */
export interface Fact {
  /** `r4c8`, `7 of column 2`. */
  readonly name: string;
  /** All that it could ever have. */
  readonly all: readonly Candidate[];
  readonly places: readonly Candidate[];
}

export const cellPattern = 'r\\d+c\\d+';
export const housePattern = '(?:row|column|box) \\d';
export const factPattern = `(?:the \\d of ${housePattern}|${cellPattern})`;
const listOf = (item: string): string => `${item}(?:, ${item})*(?:(?: and| or) ${item})?`;
export const cellsPattern = listOf(cellPattern);
export const digitsPattern = listOf('\\d');
export const housesPattern = `(?:rows|columns|boxes|row|column|box) ${listOf('\\d')}`;
export const placePattern = `(?:${cellPattern}|[rc]\\d|\\d)`;
export const placesPattern = listOf(placePattern);

export const cellOf = (name: string): number => {
  const [row, column] = (name.match(/\d+/g) ?? []).map(Number);
  return (row - 1) * 9 + column - 1;
};
export const cellsIn = (text: string): number[] => (text.match(/r\dc\d/g) ?? []).map(cellOf);
export const digitsIn = (text: string): number[] => (text.match(/\d/g) ?? []).map(Number);
export const candidateAt = (cell: number, digit: number): Candidate => cell * 9 + digit - 1;
export const digitOf = (x: Candidate): number => (x % 9) + 1;
export const cellAt = (x: Candidate): number => Math.floor(x / 9);

const kinds = ['row', 'column', 'box'] as const;
const numberIn = {
  row: (cell: number) => Math.floor(cell / 9) + 1,
  column: (cell: number) => (cell % 9) + 1,
  box: (cell: number) => Math.floor(cell / 27) * 3 + Math.floor((cell % 9) / 3) + 1,
};

/** `row 3` in either case: its cells. */
export function cellsOfHouse(name: string): number[] {
  const [kind, number] = name.toLowerCase().split(' ');
  const own = kinds.find((each) => each === kind);
  if (!own) throw new Error(`no house: ${name}`);
  return Array.from({ length: 81 }, (_, cell) => cell).filter(
    (cell) => numberIn[own](cell) === Number(number),
  );
}

/** `rows 3 and 5`, `box 2`: the names of the houses. */
export function housesIn(text: string): string[] {
  const [, kind, numbers] = /^(row|column|box)(?:e?s)? (.*)$/i.exec(text) ?? [];
  return digitsIn(numbers ?? '').map((number) => `${kind.toLowerCase()} ${number}`);
}

/** What a fact could ever have, from its name. */
export function allOf(name: string): Candidate[] {
  const house = /^(\d) of (.*)$/.exec(name);
  if (house) return cellsOfHouse(house[2]).map((cell) => candidateAt(cell, Number(house[1])));
  return [1, 2, 3, 4, 5, 6, 7, 8, 9].map((digit) => candidateAt(cellOf(name), digit));
}

/** Places as they are said of a fact: digits of a cell, `c4` of a row, `r4` of a column, cells of a box. */
export function placesOf(name: string, said: string): Candidate[] {
  const words = said.match(new RegExp(placePattern, 'g')) ?? [];
  return allOf(name).filter((x) =>
    words.some((word) => {
      if (/^r\dc\d$/.test(word)) return cellOf(word) === cellAt(x);
      if (word.startsWith('c')) return Number(word[1]) === numberIn.column(cellAt(x));
      if (word.startsWith('r')) return Number(word[1]) === numberIn.row(cellAt(x));
      return Number(word) === digitOf(x);
    }),
  );
}

/** `7 of row 1: c7, c8 or c9.`, `r1c8 is 5 or 9.`; null if it is no fact. */
export function factIn(text: string): Fact | null {
  const match = /^(\d of .*?): (?:only )?(.*)\.$/.exec(text) ?? /^(r\dc\d) is (.*)\.$/.exec(text);
  if (!match) return null;
  const [, name, said] = match;
  return { name, all: allOf(name), places: placesOf(name, said) };
}

/** `7 goes from r2c8 r2c9.`, `4 had gone before from r6c1.` */
export function strikesIn(text: string): Candidate[] {
  const match = /^(\d) (?:goes|had gone before) from (.*)\.$/.exec(text);
  return match ? cellsIn(match[2]).map((cell) => candidateAt(cell, Number(match[1]))) : [];
}
