import { existsSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { type Layout, plain } from '../grid/layout.ts';
import { parseDigit } from '../grid/names.ts';
import { type GridError, isGridPerLine, type NamedGrid, readGridLine, readGrids } from '../grid/read.ts';
import { splitLines } from '../grid/source-lines.ts';
import { fileLimit, gridLimit, lineLimit as lengthOfLine, sayRaise } from './limits.ts';
import { BlockCutter, countLines, LineSplitter, lineLimit, type NumberedLine } from './line-splitter.ts';
import type { Mistake } from './mistake.ts';

/** One grid of the input, or what is wrong where one should be. */
export type GridInput =
  | { readonly kind: 'grid'; readonly named: NamedGrid }
  | { readonly kind: 'bad'; readonly mistake: Mistake };

/** The input can't be read at all: there is no such file, or reading it failed. */
export class UnreadableInput extends Error {
  readonly mistake: Mistake;
  constructor(mistake: Mistake) {
    super(mistake.message);
    this.mistake = mistake;
  }
}

/** Where grids come from: what stands in messages, and the text as it arrives. */
export interface GridSource {
  readonly name: string;
  readonly chunks: AsyncIterable<string>;
}

/** How many bytes of a file are read at a time: some hundred grids. */
const pieceSize = 32_768;
/** The most characters of an input that has to be read as a whole. */
const wholeLimit = fileLimit.most;
/** How much is read before it is settled whether the text has one grid a line. */
const headLimit = 100_000;

const readingErrors: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'this is a folder',
  EACCES: 'this file may not be read',
};

/** Bytes as text, opened when the first is asked for: UTF-8 or, by its mark, UTF-16. What is not valid becomes U+FFFD, which no grid holds. */
async function* decoded(start: () => AsyncIterable<Uint8Array>, name: string): AsyncGenerator<string> {
  let decoder: InstanceType<typeof TextDecoder> | null = null;
  try {
    for await (const chunk of start()) {
      if (decoder === null) {
        const mark = (chunk[0] << 8) | chunk[1];
        decoder = new TextDecoder(mark === 0xfffe ? 'utf-16le' : mark === 0xfeff ? 'utf-16be' : 'utf-8');
      }
      yield decoder.decode(chunk, { stream: true });
    }
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    if (code === 'ERR_STREAM_PREMATURE_CLOSE') return;
    throw new UnreadableInput({
      place: name === '' ? "''" : name,
      message: readingErrors[code] ?? `it can't be read (${code || String(error)})`,
      next: 'a grid is a file, - for stdin, or an argument of 81 signs',
    });
  }
  if (decoder !== null) yield decoder.decode();
}

/** The bytes of a file, piece by piece, all in the same few: each is to be used before the next is asked for. */
async function* fileBytes(path: string): AsyncGenerator<Uint8Array> {
  const file = await open(path);
  try {
    const bytes = new Uint8Array(pieceSize);
    for (;;) {
      const { bytesRead } = await file.read(bytes, 0, pieceSize);
      if (bytesRead === 0) return;
      yield bytes.subarray(0, bytesRead);
    }
  } finally {
    await file.close();
  }
}

async function* once(text: string): AsyncGenerator<string> {
  yield text;
}

/** Whether an operand is meant as a grid, right or wrong, and not as the name of a file. */
function isGridText(operand: string, layout: Layout): boolean {
  if (operand.includes('\n') || /^[-.0-9_*?| ]{20,}$/.test(operand)) return true;
  if (operand.length !== layout.cellCount) return false;
  if (layout === plain) return !/[/\\]/.test(operand);
  return [...operand].every((sign) => /[-.0_*?]/.test(sign) || parseDigit(layout, sign) !== null);
}

/** The source that an operand names: `-` stdin, a grid, or a file, which comes first where both are possible. */
export function sourceOf(
  operand: string,
  stdin: AsyncIterable<Uint8Array>,
  layout: Layout = plain,
): GridSource {
  if (operand === '-') return { name: 'stdin', chunks: decoded(() => stdin, 'stdin') };
  if (isGridText(operand, layout) && !existsSync(operand)) return { name: 'GRID', chunks: once(operand) };
  return { name: operand, chunks: decoded(() => fileBytes(operand), operand) };
}

/** A reader's error as a mistake in a source; `lines` has the text of the line that it names. */
function mistakeOf(name: string, error: GridError, text: string | undefined, raise?: string): Mistake {
  const message = error.message.replace(/^Line \d+, column \d+: /, '').replace(/\.$/, '');
  return {
    place: `${name}:${error.line}:${error.column}`,
    message,
    ...(text === undefined || text.trim() === '' ? {} : { excerpt: { text, column: error.column } }),
    next: raise ?? "'inkling help check' tells what is read",
  };
}

/** Whether a line is 81 signs without a space, a remark aside: then it is a grid, and no row of one. */
const isBareGrid = (line: string, layout: Layout): boolean =>
  /^\s*\S+\s*$/.test(line) && isGridPerLine(line, layout);

/**
 * Whether the text has one grid a line, as far as it is known; `unknown` asks for more of it. The first
 * lines may be bad, so half of them settle it.
 */
function judgeHead(head: string, ended: boolean, layout: Layout): 'lines' | 'whole' | 'unknown' {
  // The last line may go on in the next piece.
  const complete = ended ? head : head.slice(0, head.search(/[^\r\n]*$/));
  const filled = splitLines(complete)
    .slice(0, 50)
    .map((line) => line.replace(/#.*$/, ''))
    .filter((line) => line.trim() !== '');
  const bare = filled.filter((line) => isBareGrid(line, layout)).length;
  if (bare > 0 && bare * 2 >= filled.length) return 'lines';
  if (ended) return 'whole';
  if (head.length < headLimit) return 'unknown';
  return isGridPerLine(head, layout) ? 'lines' : 'whole';
}

/** Every grid of a text in any form, and what is bad in it; never nothing. `name`: of the source, for messages. */
export function* readWhole(name: string, text: string, layout: Layout = plain): Generator<GridInput> {
  const lines = splitLines(text);
  const limit = gridLimit.most > 0 ? { limit: gridLimit.most } : {};
  for (const result of readGrids(text, { layout, textLimit: wholeLimit, ...limit })) {
    if (result.ok) yield { kind: 'grid', named: result.value };
    else {
      const tooLong = result.error.code === 'too-long';
      const raise = tooLong ? sayRaise(text.length > wholeLimit ? fileLimit : gridLimit) : undefined;
      yield { kind: 'bad', mistake: mistakeOf(name, result.error, lines[result.error.line - 1], raise) };
    }
  }
}

/** What stands on one line, if anything; `name`: of the source, for messages. */
export function readNumberedLine(
  name: string,
  { line, number }: NumberedLine,
  layout: Layout = plain,
): GridInput | null {
  const result = readGridLine(line, number, { layout, limit: lineLimit });
  if (!result.ok) {
    const raise = line.length > lineLimit ? sayRaise(lengthOfLine) : undefined;
    return { kind: 'bad', mistake: mistakeOf(name, result.error, line, raise) };
  }
  return result.value === null ? null : { kind: 'grid', named: result.value };
}

/** Every line of a block that holds a grid or something bad, in order; `firstLine`: the number of its first. */
export function* readBlock(
  name: string,
  { text, firstLine }: LineBlock,
  layout: Layout = plain,
): Generator<GridInput> {
  const splitter = new LineSplitter();
  for (const lines of [splitter.push(text), splitter.end()]) {
    for (const { line, number } of lines) {
      const read = readNumberedLine(name, { line, number: firstLine - 1 + number }, layout);
      if (read) yield read;
    }
  }
}

/** Whole lines, each with a grid or something else on it. */
export interface LineBlock {
  readonly text: string;
  /** From 1. */
  readonly firstLine: number;
}

/**
 * The text of a source as soon as it is there: in blocks of whole lines where it has one grid a line, so
 * that memory does not grow with the input, otherwise as a whole, up to a limit. Throws UnreadableInput.
 */
export async function* piecesIn(
  source: GridSource,
  layout: Layout = plain,
): AsyncGenerator<
  ({ readonly kind: 'lines' } & LineBlock) | { readonly kind: 'whole'; readonly text: string }
> {
  const cutter = new BlockCutter();
  let head: string | null = '';
  let isWhole = false;
  let firstLine = 1;
  const block = (text: string) => {
    const piece = { kind: 'lines', text, firstLine } as const;
    firstLine += countLines(text);
    return piece;
  };
  for await (const chunk of source.chunks) {
    let lines = chunk;
    if (head !== null) {
      head += chunk;
      // Settled once: looking at all of it again with each piece would take longer and longer.
      const form: ReturnType<typeof judgeHead> = isWhole ? 'whole' : judgeHead(head, false, layout);
      isWhole = form === 'whole';
      if (form !== 'lines') {
        if (head.length > wholeLimit) break;
        continue;
      }
      lines = head;
      head = null;
    }
    const whole = cutter.push(lines);
    if (whole !== '') yield block(whole);
  }
  if (head !== null) {
    if (isWhole || judgeHead(head, true, layout) === 'whole') {
      yield { kind: 'whole', text: head };
      return;
    }
    const whole = cutter.push(head);
    if (whole !== '') yield block(whole);
  }
  const last = cutter.end();
  if (last !== '') yield block(last);
}

/**
 * Every grid of a source, in order, each as soon as it has been read where the text has one a line. Ends
 * without a grid only where it has told of something bad. Throws UnreadableInput.
 */
export async function* gridsIn(source: GridSource, layout: Layout = plain): AsyncGenerator<GridInput> {
  let found = 0;
  for await (const piece of piecesIn(source, layout)) {
    const grids =
      piece.kind === 'whole'
        ? readWhole(source.name, piece.text, layout)
        : readBlock(source.name, piece, layout);
    for (const grid of grids) {
      found += 1;
      yield grid;
    }
  }
  if (found === 0) yield* readWhole(source.name, '', layout);
}
