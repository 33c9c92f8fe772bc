import { type Layout, plain, rectangularBoxes } from './layout.ts';
import { readLayout } from './layout-reader.ts';
import { cellName } from './names.ts';

/** A layout as it is kept beside a grid: plain data, a few lines of text. */
export interface WrittenLayout {
  readonly name: string;
  readonly text: string;
}

/** `boxes RxC` where the layout's boxes are such rectangles; null where they are not. */
function sayBoxes({ size, boxOf }: Layout): string | null {
  for (let rows = 1; rows <= size; rows += 1) {
    if (size % rows !== 0) continue;
    const boxes = rectangularBoxes(rows, size / rows);
    if (boxOf.every((box, cell) => box === boxes[cell])) return `boxes ${rows}x${size / rows}`;
  }
  return null;
}

/**
 * A layout as text, a line each for its size, boxes or regions, diagonals and extra houses, without remarks.
 * `readLayout` makes the same layout of it again, given the same name. For layouts that come from there, and
 * the plain one: a plan of one's own whose boxes are not numbered as they are met, or with one diagonal
 * alone, has no text.
 */
export function makeLayoutText(layout: Layout): string {
  const { size, houses, boxOf } = layout;
  const sayRow = (row: number) =>
    boxOf.slice(row * size, (row + 1) * size).map((box) => String.fromCharCode(65 + box));
  const boxes = sayBoxes(layout);
  const rows = Array.from({ length: size }, (_, row) => sayRow(row).join(''));
  const extras = houses.filter(({ kind }) => kind === 'extra');
  const lines = [
    `size ${size}`,
    ...(boxes === null ? ['regions', ...rows] : [boxes]),
    ...(houses.some(({ kind }) => kind === 'diagonal') ? ['diagonals'] : []),
    ...extras.map(({ cells }) => `extra ${cells.map((cell) => cellName(layout, cell)).join(' ')}`),
  ];
  return `${lines.join('\n')}\n`;
}

const written = new WeakMap<Layout, WrittenLayout>();

/** A layout as it is kept beside a grid; see `makeLayoutText`. */
export function writeLayout(layout: Layout): WrittenLayout {
  const known = written.get(layout);
  if (known) return known;
  const made = { name: layout.name, text: makeLayoutText(layout) };
  written.set(layout, made);
  return made;
}

/**
 * The layout that was written down: `like` itself, or the plain one itself, where it is the same; null where
 * its text is no layout.
 */
export function readWritten({ name, text }: WrittenLayout, like: Layout = plain): Layout | null {
  for (const known of [like, plain]) {
    if (known.name === name && writeLayout(known).text === text) return known;
  }
  const layout = readLayout(text, name);
  return layout.ok ? layout.value : null;
}
