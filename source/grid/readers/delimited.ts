import type { Layout } from '../layout.ts';
import type { SourceLine } from '../source-lines.ts';
import { type CellText, gridOfCells, isBar, isSpace, parseCellText, type Reading } from './cells.ts';
import type { Token } from './tables.ts';

/** What parts the fields of a line. */
export type Delimiter = ',' | ';' | '\t' | '|';

export const delimiters: readonly Delimiter[] = [',', ';', '\t', '|'];

/** How a delimiter is named in a sentence. */
export const delimiterSaid: Readonly<Record<Delimiter, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'bars',
};

const parts = (delimiter: Delimiter, sign: string): boolean =>
  delimiter === '|' ? isBar(sign) : sign === delimiter;

/** Whether the delimiter stands on the line at all. */
export const hasDelimiter = (line: SourceLine, delimiter: Delimiter): boolean =>
  line.signs.some((sign) => parts(delimiter, sign));

/**
 * The fields of a line; quotation marks are taken off, `""` inside them is one. A field's column is that of
 * its first sign, or of the delimiter that ends it when it is empty. The edges of a row in bars are no fields.
 */
export function fieldsOf(line: SourceLine, delimiter: Delimiter): Token[] {
  const { signs, columns, end } = line;
  const fields: Token[] = [];
  let text = '';
  let column = 0;
  let quoted = false;
  const close = (at: number) => {
    fields.push({ text: text.trim(), column: column || at });
    text = '';
    column = 0;
  };
  for (let index = 0; index < signs.length; index += 1) {
    const sign = signs[index];
    if (quoted && sign === '"' && signs[index + 1] === '"') {
      text += sign;
      index += 1;
    } else if (sign === '"' && delimiter !== '|' && (quoted || text.trim() === '')) {
      column ||= columns[index];
      quoted = !quoted;
    } else if (!quoted && parts(delimiter, sign)) {
      close(columns[index]);
    } else {
      if (!isSpace(sign)) column ||= columns[index];
      text += sign;
    }
  }
  close(end);
  if (delimiter === '|') {
    if (fields[0].text === '') fields.shift();
    if (fields.length > 0 && fields[fields.length - 1].text === '') fields.pop();
  }
  return fields;
}

/** The text of a field as one cell: `1 3 7` and `1,3,7` are candidates as `137` is. */
export function parseField(layout: Layout, text: string): CellText | null {
  if (text === '') return { given: 0, marks: 0 };
  return parseCellText(layout, text.replace(/[\s,;]+/g, ''));
}

/** CSV, TSV, or cells between bars; an empty field is a blank. Null if the fields are not exactly the cells. */
export function readFields(
  layout: Layout,
  rows: readonly SourceLine[],
  delimiter: Delimiter,
): Reading | null {
  if (rows.length !== layout.size && rows.length !== 1) return null;
  if (!rows.every((row) => hasDelimiter(row, delimiter))) return null;
  const wanted = rows.length === 1 ? layout.cellCount : layout.size;
  const lines = rows.map((row) => fieldsOf(row, delimiter));
  // A delimiter after the last field of every row opens no field.
  const trailing = lines.every((fields) => fields.length === wanted + 1 && fields[wanted].text === '');
  const cells: CellText[] = [];
  for (const fields of lines) {
    if (fields.length !== (trailing ? wanted + 1 : wanted)) return null;
    for (const field of fields.slice(0, wanted)) {
      const cell = parseField(layout, field.text);
      if (cell === null) return null;
      cells.push(cell);
    }
  }
  const how = `cells parted by ${delimiterSaid[delimiter]}, an empty one being blank`;
  return { how, grid: gridOfCells(layout, cells) };
}
