import { checksum } from './checksum.ts';

/** The version of the format that is written, and the highest that is read. */
export const formatVersion = 1;

/** The most characters that a line may have: more than the longest event of the largest layout needs. */
export const recordLimit = 65_536;

const kind = 'inkling-sheet';

/** The end of a journal as it stands: what the next record goes on from. */
export interface Tail {
  /** The number of the last record; 0 behind the first line. */
  readonly number: number;
  /** The checksum of the last line. */
  readonly sum: string;
}

const startSum = checksum(`${kind} ${formatVersion}`);

/** The first line of every journal, its end included. */
export const firstLine = `${kind} ${formatVersion} ${startSum}\n`;

/** The end of a journal that has its first line alone. */
export const start: Tail = { number: 0, sum: startSum };

/**
 * What a first line says: its version, also where that is one that is not known here; null where it is the
 * first line of no journal, or a damaged one.
 */
export function versionOf(line: string): number | null {
  const match = /^(inkling-sheet ([1-9]\d{0,8})) ([0-9a-f]{8})$/.exec(line);
  return match && checksum(match[1]) === match[3] ? Number(match[2]) : null;
}

const sumOf = (before: Tail, number: number, body: string): string =>
  checksum(`${before.sum} ${number} ${body}`);

/** JSON with characters below 0x7f alone, so that a journal has one byte a character and hides nothing. */
export const bodyOf = (value: unknown): string =>
  JSON.stringify(value).replace(
    /[\u007f-\uffff]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );

/** A record behind a journal's end, its line end included, and the end that it makes. */
export function makeRecord(tail: Tail, body: string): { readonly text: string; readonly tail: Tail } {
  const number = tail.number + 1;
  const sum = sumOf(tail, number, body);
  return { text: `${number} ${sum} ${body}\n`, tail: { number, sum } };
}

/** Several records, one after the other. */
export function makeRecords(
  tail: Tail,
  bodies: readonly string[],
): { readonly text: string; readonly tail: Tail } {
  let end = tail;
  const texts = bodies.map((body) => {
    const made = makeRecord(end, body);
    end = made.tail;
    return made.text;
  });
  return { text: texts.join(''), tail: end };
}

/** What a line without its end holds, where it is the record that comes next; otherwise what is wrong with it. */
export function readRecord(
  tail: Tail,
  line: string,
): { readonly body: string; readonly tail: Tail } | { readonly wrong: string } {
  const number = tail.number + 1;
  const match = /^([1-9]\d{0,14}) ([0-9a-f]{8}) /.exec(line);
  if (!match) return { wrong: 'what is no record' };
  const [, digits, sum] = match;
  if (digits !== `${number}`) return { wrong: `record ${digits}` };
  const body = line.slice(digits.length + 10);
  if (sumOf(tail, number, body) !== sum) return { wrong: 'a record that does not match its checksum' };
  return { body, tail: { number, sum } };
}
