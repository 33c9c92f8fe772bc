/** A line as the readers see it: signs brought to their plain form, each with the column it came from. */
export interface SourceLine {
  /** From 1, in the whole text. */
  readonly number: number;
  /** One sign each: spaces of all kinds as ' ' (tabs stay), full-width forms as ASCII, `·` as '.'. */
  readonly signs: readonly string[];
  /** The column of each sign, from 1, in code points. */
  readonly columns: readonly number[];
  /** The column just after the line's last sign that is not a comment. */
  readonly end: number;
  /** The text after `#`, trimmed, if there is any. */
  readonly remark: string | undefined;
}

/** A text cut into lines, without what is not part of any grid: BOM, quotation marks, code fences. */
export interface SourceText {
  readonly lines: readonly SourceLine[];
}

const spaces = /[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000\u000b\u000c]/u;
const hyphens = /[\u2010-\u2013\u2212\ufe63]/u;

/** The plain form of one sign; an empty string for signs that have no width and no meaning here. */
function plainSign(sign: string): string {
  const code = sign.codePointAt(0)!;
  if (code < 0x7f && code !== 0x0b && code !== 0x0c) return sign;
  if (code >= 0xff01 && code <= 0xff5e) return String.fromCodePoint(code - 0xfee0);
  if (sign === '·' || sign === '∙' || sign === '⋅' || sign === '•') return '.';
  if (spaces.test(sign)) return ' ';
  // Made here: classes of Unicode are looked up whenever such an expression is made.
  if (/\p{Variation_Selector}|\p{Join_Control}|[\u200b\u2060\ufeff]/u.test(sign)) return '';
  if (hyphens.test(sign)) return '-';
  return sign;
}

/** A text without its byte order mark, which is in no line: columns count from after it, as in editors. */
export const withoutMark = (text: string): string => (text.startsWith('\ufeff') ? text.slice(1) : text);

/** Cuts a text at CRLF, LF and CR. A last newline does not open a line. */
export function splitLines(text: string): string[] {
  const lines = text.split(/\r\n|\n|\r/);
  if (lines.length > 1 && lines[lines.length - 1] === '') lines.pop();
  return lines;
}

/** Reads one line into signs. `number` counts from 1. */
export function sourceLine(raw: string, number: number): SourceLine {
  const signs: string[] = [];
  const columns: number[] = [];
  let column = 0;
  let remark: string | undefined;
  let offset = 0;
  let end = 1;
  for (const original of raw) {
    column += 1;
    offset += original.length;
    const sign = plainSign(original);
    if (sign === '#') {
      remark = raw.slice(offset).replace(/^#+/, '').trim();
      break;
    }
    end = column + 1;
    if (sign === '') continue;
    signs.push(sign);
    columns.push(column);
  }
  return { number, signs, columns, end, remark: remark === '' ? undefined : remark };
}

const isSpace = (sign: string): boolean => sign === ' ' || sign === '\t';

/** Whether nothing but spaces and tabs stands on the line (a remark aside). */
export const isBlankLine = (line: SourceLine): boolean => line.signs.every(isSpace);

/** A line without its first signs. */
function withoutFirst(line: SourceLine, count: number): SourceLine {
  return { ...line, signs: line.signs.slice(count), columns: line.columns.slice(count) };
}

/** How many signs of `> ` stand before the text; 0 where the line is not quoted. */
function quoteWidth(line: SourceLine): number {
  const at = line.signs.findIndex((sign) => !isSpace(sign));
  if (at < 0 || line.signs[at] !== '>') return 0;
  return line.signs[at + 1] === ' ' ? at + 2 : at + 1;
}

function isFence({ signs }: SourceLine): boolean {
  const at = signs.findIndex((sign) => !isSpace(sign));
  const sign = signs[at];
  return (sign === '`' || sign === '~') && signs[at + 1] === sign && signs[at + 2] === sign;
}

/** Takes off `> ` where every line that is not blank has it, again for quotes in quotes; drops code fences. */
function unwrap(lines: readonly SourceLine[]): SourceLine[] {
  let rest = [...lines];
  for (let depth = 0; depth < 8; depth += 1) {
    const filled = rest.filter((line) => !isBlankLine(line));
    if (filled.length === 0 || filled.some((line) => quoteWidth(line) === 0)) break;
    rest = rest.map((line) => withoutFirst(line, quoteWidth(line)));
  }
  return rest.filter((line) => !isFence(line));
}

/**
 * Cuts a text into lines of plain signs. `number` is the line that the text begins on. A remark that is
 * quoted with `> #` is a remark.
 */
export function sourceText(text: string, number = 1): SourceText {
  return { lines: unwrap(splitLines(withoutMark(text)).map((line, i) => sourceLine(line, number + i))) };
}
