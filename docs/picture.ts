import type { CellColour, ScreenCell, ScreenPicture } from '../tests/pty/screen.ts';
import { blockOf, lineArms } from './line-characters.ts';

/** How a picture looks where the terminal leaves it open. */
export interface PictureOptions {
  /** What stands there, for those who can't see it. */
  readonly title: string;
  /** The terminal's own colours. Default dark. */
  readonly theme?: 'dark' | 'light';
  /** Whether to draw the real cursor, if it is shown. Default true. */
  readonly cursor?: boolean;
}

type Rgb = readonly [red: number, green: number, blue: number];

const themes = {
  dark: { foreground: [222, 222, 222], background: [0, 0, 0], edge: '#3a3a3a' },
  light: { foreground: [26, 26, 26], background: [255, 255, 255], edge: '#c8c8c8' },
} as const;

/** xterm's sixteen (its XTerm-col.ad). */
const sixteen: readonly Rgb[] = [
  [0, 0, 0],
  [205, 0, 0],
  [0, 205, 0],
  [205, 205, 0],
  [0, 0, 238],
  [205, 0, 205],
  [0, 205, 205],
  [229, 229, 229],
  [127, 127, 127],
  [255, 0, 0],
  [0, 255, 0],
  [255, 255, 0],
  [92, 92, 255],
  [255, 0, 255],
  [0, 255, 255],
  [255, 255, 255],
];

const cellWidth = 10;
const cellHeight = 21;
const baseline = 15.7;
/** At this size the first font of the list is as wide as a cell; others are fitted by `textLength`. */
const fontSize = 16.6;
const margin = 14;
const lightLine = 1.6;
const heavyLine = 3.4;
/** How much of the foreground is left of dim text. */
const dimShare = 0.6;

/** The 256 palette: the sixteen, a cube of six steps a colour, 24 grays (xterm's 256colres.pl). */
function paletteColour(index: number): Rgb {
  if (index < 16) return sixteen[index]!;
  if (index >= 232) {
    const gray = 8 + (index - 232) * 10;
    return [gray, gray, gray];
  }
  const step = (value: number) => (value === 0 ? 0 : 55 + value * 40);
  const cube = index - 16;
  return [step(Math.floor(cube / 36)), step(Math.floor(cube / 6) % 6), step(cube % 6)];
}

function rgb(colour: CellColour, open: Rgb): Rgb {
  switch (colour.kind) {
    case 'default':
      return open;
    case 'palette':
      return paletteColour(colour.index);
    case 'rgb':
      return [colour.red, colour.green, colour.blue];
  }
}

const hex = (colour: Rgb): string => `#${colour.map((part) => part.toString(16).padStart(2, '0')).join('')}`;

const number = (value: number): string => String(Math.round(value * 100) / 100);

const escapeXml = (text: string): string =>
  text.replaceAll(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]!);

/** The two colours of a cell as they are seen, inversion and dimness done. */
function colours(cell: ScreenCell, theme: 'dark' | 'light'): { ink: string; paper: string | undefined } {
  const { foreground, background } = themes[theme];
  let front = rgb(cell.foreground, foreground);
  let back = rgb(cell.background, background);
  if (cell.inverse) [front, back] = [back, front];
  if (cell.dim)
    front = front.map((part, i) => Math.round(part * dimShare + back[i]! * (1 - dimShare))) as unknown as Rgb;
  const isOpen = !cell.inverse && cell.background.kind === 'default';
  return { ink: hex(front), paper: isOpen ? undefined : hex(back) };
}

/** Straight strokes of one colour and width, joined where they touch end to end. */
class Strokes {
  /** By colour, width, direction and the coordinate across: the stretches along. */
  readonly #stretches = new Map<string, [from: number, to: number][]>();

  add(colour: string, width: number, direction: 'H' | 'V', across: number, from: number, to: number): void {
    const key = `${colour} ${number(width)} ${direction} ${number(across)}`;
    const stretches = this.#stretches.get(key) ?? [];
    this.#stretches.set(key, stretches);
    stretches.push([Math.min(from, to), Math.max(from, to)]);
  }

  toString(): string {
    const paths = new Map<string, string>();
    for (const [key, stretches] of this.#stretches) {
      const [colour, width, direction, across] = key.split(' ') as [string, string, 'H' | 'V', string];
      let path = '';
      for (const [from, to] of joined(stretches)) {
        path += direction === 'H' ? `M${number(from)} ${across}` : `M${across} ${number(from)}`;
        path += `${direction}${number(to)}`;
      }
      const style = `stroke="${colour}" stroke-width="${width}"`;
      paths.set(style, (paths.get(style) ?? '') + path);
    }
    return [...paths].map(([style, path]) => `<path ${style} d="${path}"/>\n`).join('');
  }
}

function joined(stretches: readonly (readonly [number, number])[]): [number, number][] {
  const result: [number, number][] = [];
  for (const [from, to] of [...stretches].sort((a, b) => a[0] - b[0])) {
    const last = result.at(-1);
    if (last && from <= last[1] + 0.01) last[1] = Math.max(last[1], to);
    else result.push([from, to]);
  }
  return result;
}

/** Signs side by side in one style, without spaces. */
interface Word {
  readonly style: string;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** Words, gathered by style. Each stands on its own place, so that no font can shift a row. */
class Words {
  readonly #byStyle = new Map<string, string>();

  add(word: Word | undefined, row: number): void {
    if (!word) return;
    const { style, from, to, text } = word;
    const fitted = to - from > cellWidth ? ` textLength="${to - from}" lengthAdjust="spacingAndGlyphs"` : '';
    const place = `x="${number((from + to) / 2)}" y="${number(row * cellHeight + baseline)}"`;
    const element = `<text ${place}${fitted}>${escapeXml(text)}</text>\n`;
    this.#byStyle.set(style, (this.#byStyle.get(style) ?? '') + element);
  }

  toString(): string {
    return [...this.#byStyle].map(([style, elements]) => `<g ${style}>\n${elements}</g>\n`).join('');
  }
}

const lineWidth = (weight: 0 | 1 | 2): number => [0, lightLine, heavyLine][weight]!;

/** A line character as strokes from the middle of its cell to the edges; corners are filled. */
function drawLines(strokes: Strokes, character: string, colour: string, left: number, top: number): boolean {
  const arms = lineArms(character);
  if (!arms) return false;
  const middleX = left + cellWidth / 2;
  const middleY = top + cellHeight / 2;
  const throughX = lineWidth(Math.max(arms.left, arms.right) as 0 | 1 | 2) / 2;
  const throughY = lineWidth(Math.max(arms.up, arms.down) as 0 | 1 | 2) / 2;
  const stroke = (weight: 0 | 1 | 2, direction: 'H' | 'V', from: number, to: number) => {
    const across = direction === 'H' ? middleY : middleX;
    if (weight > 0) strokes.add(colour, lineWidth(weight), direction, across, from, to);
  };
  stroke(arms.left, 'H', left, middleX + throughY);
  stroke(arms.right, 'H', middleX - throughY, left + cellWidth);
  stroke(arms.up, 'V', top, middleY + throughX);
  stroke(arms.down, 'V', middleY - throughX, top + cellHeight);
  return true;
}

/**
 * Draws a terminal's screen as an SVG: each sign on its place of the grid in any fixed-width font, line and
 * block characters as shapes that join from cell to cell, all of the sixteen, 256 and direct colours, bold,
 * dim, italic, underline, strike, overline and inverse. The text is small and the same for the same screen,
 * so that a change shows in a diff.
 */
export function drawPicture(picture: ScreenPicture, options: PictureOptions): string {
  const { theme = 'dark', cursor = true } = options;
  const { foreground, background, edge } = themes[theme];
  const width = picture.columns * cellWidth + 2 * margin;
  const height = picture.rows * cellHeight + 2 * margin;
  const papers: string[] = [];
  const words = new Words();
  const strokes = new Strokes();
  const blocks: string[] = [];

  picture.cells.forEach((row, y) => {
    const top = y * cellHeight;
    let word: Word | undefined;
    let paper: { colour: string; from: number; to: number } | undefined;
    const endPaper = () => {
      if (!paper) return;
      const size = `width="${(paper.to - paper.from) * cellWidth}" height="${cellHeight}"`;
      papers.push(`<rect x="${paper.from * cellWidth}" y="${top}" ${size} fill="${paper.colour}"/>\n`);
    };
    row.forEach((cell, x) => {
      const look = colours(cell, theme);
      if (look.paper !== paper?.colour) {
        endPaper();
        paper = look.paper === undefined ? undefined : { colour: look.paper, from: x, to: x };
      }
      if (paper) paper.to = x + 1;
      if (cell.width === 0 || cell.hidden) return;
      const left = x * cellWidth;
      const right = left + cell.width * cellWidth;
      const rule = (offset: number) => strokes.add(look.ink, 1.3, 'H', top + offset, left, right);
      if (cell.underline) rule(baseline + 2.8);
      if (cell.strike) rule(baseline - 5);
      if (cell.overline) rule(1);
      if (cell.text === ' ' || drawLines(strokes, cell.text, look.ink, left, top)) return;
      const block = blockOf(cell.text);
      if (block) {
        const [bx, by, bw, bh] = block;
        const place = `x="${number(left + bx * cellWidth)}" y="${number(top + by * cellHeight)}"`;
        const size = `width="${number(bw * cellWidth)}" height="${number(bh * cellHeight)}"`;
        blocks.push(`<rect ${place} ${size} fill="${look.ink}"/>\n`);
        return;
      }
      const style = `fill="${look.ink}"${cell.bold ? ' font-weight="700"' : ''}${cell.italic ? ' font-style="italic"' : ''}`;
      if (word?.style === style && word.to === left)
        word = { ...word, to: right, text: word.text + cell.text };
      else {
        words.add(word, y);
        word = { style, from: left, to: right, text: cell.text };
      }
    });
    words.add(word, y);
    endPaper();
  });

  const at = picture.cursor;
  const cursorBox =
    cursor && at.visible
      ? `<rect x="${at.x * cellWidth + 0.5}" y="${at.y * cellHeight + 0.5}" width="${cellWidth - 1}" ` +
        `height="${cellHeight - 1}" fill="none" stroke="${hex(foreground)}"/>\n`
      : '';
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" ` +
    `viewBox="0 0 ${width} ${height}" role="img">\n` +
    `<title>${escapeXml(options.title)}</title>\n` +
    `<rect x="0.5" y="0.5" width="${width - 1}" height="${height - 1}" rx="7" ` +
    `fill="${hex(background)}" stroke="${edge}"/>\n` +
    `<g transform="translate(${margin} ${margin})" font-size="${fontSize}" text-anchor="middle" ` +
    `font-family="DejaVu Sans Mono, Menlo, Consolas, Liberation Mono, monospace">\n` +
    `${papers.join('')}${words}${blocks.join('')}<g fill="none">\n${strokes}</g>\n${cursorBox}</g>\n</svg>\n`
  );
}
