import type { Layout } from '../layout.ts';
import { isBlankLine, type SourceLine } from '../source-lines.ts';
import { isBar, isBlankSign, isSpace } from './cells.ts';

/** What a line can be: cells, a drawn line between boxes, or either (dashes, as many as a row has cells). */
export type LineKind = 'row' | 'rule' | 'row-or-rule';

const isHorizontal = (sign: string): boolean => /[-=_~+─━═╌╍┄┅┈┉╴╶╸╺╼╾—―]/.test(sign);
const isJunction = (sign: string): boolean => sign === '+' || /[┌-╋╒-╬╭-╰]/.test(sign);

/**
 * What a line that is not blank can be. A rule has no digit, only horizontals with junctions, bars and the
 * small signs that people draw corners with. Dashes alone can be a row of blanks if their number is right.
 */
export function lineKind(layout: Layout, line: SourceLine): LineKind {
  let dashes = 0;
  let dots = 0;
  let junctions = 0;
  let run = 0;
  let longest = 0;
  for (const sign of line.signs) {
    if (isSpace(sign)) continue;
    if (isHorizontal(sign)) {
      run += 1;
      longest = Math.max(longest, run);
      if (sign === '+') junctions += 1;
      else if (isBlankSign(sign)) dashes += 1;
      else junctions += 1;
      continue;
    }
    run = 0;
    if (isJunction(sign)) junctions += 1;
    else if (sign === '.' || sign === '*') dots += 1;
    else if (!isBar(sign) && sign !== ':' && sign !== "'") return 'row';
  }
  if (junctions > 0 && dots === 0) return 'rule';
  if (longest === 0) return 'row';
  const blanks = dashes + dots;
  const couldBeRow = junctions === 0 && blanks % layout.size === 0 && blanks <= layout.cellCount;
  if (couldBeRow) return dots > 0 ? 'row' : 'row-or-rule';
  return longest >= 3 ? 'rule' : 'row';
}

/** One way to tell rows from rules. `how` is empty where nothing had to be decided. */
export interface RowChoice {
  readonly how: string;
  readonly rows: readonly SourceLine[];
}

const onLines = (lines: readonly SourceLine[]): string => {
  const numbers = lines.map((line) => line.number);
  const last = numbers.pop();
  return numbers.length === 0 ? `line ${last}` : `lines ${numbers.join(', ')} and ${last}`;
};

/** A row with nothing between its bars that stands right above a rule: the header that Markdown asks for. */
function emptyHeader(sure: readonly SourceLine[], filled: readonly SourceLine[]): SourceLine | null {
  const [first, second] = filled;
  const empty = first?.signs.every((sign) => isSpace(sign) || isBar(sign));
  return empty && first === sure[0] && second !== undefined && second !== sure[1] ? first : null;
}

/**
 * The ways to tell rows from rules among some lines: dashes all rules, all rows, or only the narrow ones
 * rows; and, where fewer are needed as rows, the first or the last ones.
 */
export function rowChoices(layout: Layout, lines: readonly SourceLine[]): RowChoice[] {
  const filled = lines.filter((line) => !isBlankLine(line));
  const kinds = new Map(filled.map((line) => [line, lineKind(layout, line)]));
  const sure = filled.filter((line) => kinds.get(line) !== 'rule');
  const unsure = sure.filter((line) => kinds.get(line) === 'row-or-rule');
  const header = emptyHeader(
    sure.filter((line) => !unsure.includes(line)),
    filled,
  );
  const headless = { how: '', rows: sure.filter((line) => line !== header && !unsure.includes(line)) };
  const extra = header ? [headless] : [];
  if (unsure.length === 0) return [{ how: '', rows: sure }, ...extra];
  const choose = (asRows: readonly SourceLine[]): RowChoice => {
    const asRules = new Set(unsure.filter((line) => !asRows.includes(line)));
    const said = [
      ...(asRows.length > 0
        ? [`${asRows.length === 1 ? 'a row' : 'rows'} of blanks on ${onLines(asRows)}`]
        : []),
      ...(asRules.size > 0
        ? [`${asRules.size === 1 ? 'a drawn line' : 'drawn lines'} on ${onLines([...asRules])}`]
        : []),
    ];
    return { how: `a grid with ${said.join(', ')}`, rows: sure.filter((line) => !asRules.has(line)) };
  };
  const narrow = unsure.filter(
    (line) => line.signs.filter((sign) => isBlankSign(sign)).length === layout.size,
  );
  const choices = [choose([]), ...extra];
  // More dashes than a layout has rows can't all be rows.
  if (sure.length <= layout.size) choices.push(choose(unsure));
  if (narrow.length > 0 && narrow.length < unsure.length && narrow.length <= layout.size)
    choices.push(choose(narrow));
  const needed = layout.size - (sure.length - unsure.length);
  if (needed > 0 && needed < narrow.length) {
    choices.push(choose(narrow.slice(0, needed)), choose(narrow.slice(-needed)));
  }
  return choices;
}
