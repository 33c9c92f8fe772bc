import type { Role } from './screen.ts';

/** A piece of a panel line; pieces follow each other without gaps. */
export type Piece = readonly [text: string, role: Role];
export type PanelLine = readonly Piece[];

export const blankLine: PanelLine = [];

/** Words in lines of at most `width` columns; a word that is longer by itself is cut. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    for (let rest = word; ; rest = rest.slice(width)) {
      const joined = line === '' ? rest : `${line} ${rest}`;
      if (joined.length <= width) {
        line = joined;
        break;
      }
      if (line !== '') lines.push(line);
      line = rest.slice(0, width);
      if (rest.length <= width) break;
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}

/** Text with a sign hanging before its first line, `indent` columns in. */
export function hanging(
  sign: Piece | null,
  indent: number,
  text: string,
  width: number,
  role: Role = 'text',
): PanelLine[] {
  return wrap(text, width - indent).map((line, index) => {
    if (index > 0 || !sign)
      return [
        [' '.repeat(indent), 'text'],
        [line, role],
      ] as const;
    return [sign, [' '.repeat(Math.max(0, indent - sign[0].length)), 'text'], [line, role]] as const;
  });
}

/** Pieces of text in lines: one goes on the line of the piece before if all of it has room there. */
export function wrapPieces(pieces: readonly string[], width: number): string[] {
  const lines: string[] = [];
  for (const piece of pieces) {
    const joined = lines.length === 0 ? piece : `${lines[lines.length - 1]} ${piece}`;
    if (lines.length > 0 && joined.length <= width) lines[lines.length - 1] = joined;
    else lines.push(...wrap(piece, width));
  }
  return lines.length === 0 ? [''] : lines;
}
