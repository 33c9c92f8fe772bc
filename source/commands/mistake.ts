import { safeText } from '../text/safe.ts';

/** Something that the person typed or handed in and that can't be used, and what to do about it. */
export interface Mistake {
  /** The file, and where in it: `puzzle.txt:3:12`. Absent where the command line itself is meant. */
  readonly place?: string;
  /** One sentence without a full stop; names the thing and the cause. */
  readonly message: string;
  /** The line of text that is meant, and the column in it, from 1, in code points. */
  readonly excerpt?: { readonly text: string; readonly column: number };
  /** The next action. */
  readonly next?: string;
}

/** How many code points of a line are shown around the place that is meant. */
const excerptWidth = 72;

function sayExcerpt(text: string, column: number): string[] {
  const signs = [...text.replace(/\t/g, ' ')];
  const index = Math.min(Math.max(column - 1, 0), signs.length);
  const from = Math.max(0, Math.min(index - Math.floor(excerptWidth / 2), signs.length - excerptWidth));
  const before = safeText(signs.slice(from, index).join(''));
  const after = safeText(signs.slice(index, from + excerptWidth).join(''));
  return [`  ${before}${after}`, `  ${' '.repeat([...before].length)}^`];
}

/** The lines that a person reads on stderr. Safe to show, whatever was handed in. */
export function sayMistake(mistake: Mistake): string[] {
  const place = mistake.place === undefined ? '' : `${safeText(mistake.place)}: `;
  return [
    `inkling: ${place}${safeText(mistake.message)}`,
    ...(mistake.excerpt ? sayExcerpt(mistake.excerpt.text, mistake.excerpt.column) : []),
    ...(mistake.next === undefined ? [] : [safeText(mistake.next, { keepNewlines: true })]),
  ];
}

/** An error that is nobody's but ours, in words; the stack is shown only where DEBUG is set. */
export const internalError = (error: unknown): Mistake => ({
  message: `something went wrong in the program itself: ${error instanceof Error ? error.message : String(error)}`,
  next: 'DEBUG=1 shows where',
});
