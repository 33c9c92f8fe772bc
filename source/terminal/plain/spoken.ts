const kinds: Readonly<Record<string, string>> = {
  r: 'row',
  c: 'column',
  b: 'box',
  d: 'diagonal',
  x: 'extra box',
};

const cell = '\\br(\\d{1,2})c(\\d{1,2})\\b';
const digits = '([1-9A-P]+)\\b';

const cellWords = (row: string, column: string): string => `row ${row} column ${column}`;

/** Names of cells that follow each other: `r2c3 r2c7`. */
const cellsInARow = new RegExp(`${cell}(?= r\\d{1,2}c\\d)`, 'g');
const placement = new RegExp(`${cell}=${digits}`, 'g');
const strike = new RegExp(`${cell}(?:<>|!=|≠)${digits}`, 'g');
/** Facts that follow each other: `7@c2 7@c8`. */
const factsInARow = /([1-9A-P]@[rcbdx]\d{1,2})(?= [1-9A-P]@[rcbdx]\d)/g;
const fact = /\b([1-9A-P])@([rcbdx])(\d{1,2})\b/g;
const house = /\b([rcbdx])(\d{1,2})\b/g;

/** A capital at the start of the text and behind each full stop, where words have come in place of a name. */
const startSentences = (text: string): string =>
  text.replace(/(^|[.:] )(row|column|box|diagonal|extra box)(?= \d)/g, (_, before: string, word: string) =>
    before === ': ' ? before + word : before + word.charAt(0).toUpperCase() + word.slice(1),
  );

/**
 * A sentence of the program as it is spoken: rows, columns and boxes in words in place of the notation. Only
 * for what the program says itself: a name from outside may hold the like.
 */
export function inWords(text: string): string {
  const spoken = text
    .replace(factsInARow, '$1,')
    .replace(
      strike,
      (_, row, column, digit: string) => `${cellWords(row, column)} is not ${[...digit].join(' ')}`,
    )
    .replace(placement, (_, row, column, digit: string) => `${cellWords(row, column)} is ${digit}`)
    .replace(cellsInARow, (_, row, column) => `${cellWords(row, column)},`)
    .replace(new RegExp(cell, 'g'), (_, row, column) => cellWords(row, column))
    .replace(fact, (_, digit, kind: string, number) => `${digit} of ${kinds[kind]} ${number}`)
    .replace(house, (_, kind: string, number) => `${kinds[kind]} ${number}`)
    .replace(/×/g, 'x')
    .replace(/–/g, '-');
  return startSentences(spoken);
}
