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

const plural = (lines: readonly SourceLine[]): string =>
  `line${lines.length === 1 ? '' : 's'} ${lines.map((line) => line.number).join(', ')}`;

/** The ways to tell rows from rules among some lines: dashes all rules, all rows, or only the narrow ones rows. */
export function rowChoices(layout: Layout, lines: readonly SourceLine[]): RowChoice[] {
  const filled = lines.filter((line) => !isBlankLine(line));
  const kinds = new Map(filled.map((line) => [line, lineKind(layout, line)]));
  const sure = filled.filter((line) => kinds.get(line) !== 'rule');
  const unsure = sure.filter((line) => kinds.get(line) === 'row-or-rule');
  if (unsure.length === 0) return [{ how: '', rows: sure }];
  const choose = (asRows: readonly SourceLine[]): RowChoice => {
    const asRules = unsure.filter((line) => !asRows.includes(line));
    const said = [
      ...(asRows.length > 0 ? [`${plural(asRows)} as cells that are blank`] : []),
      ...(asRules.length > 0 ? [`${plural(asRules)} as a line between boxes`] : []),
    ];
    return { how: said.join(' and '), rows: sure.filter((line) => !asRules.includes(line)) };
  };
  const narrow = unsure.filter(
    (line) => line.signs.filter((sign) => isBlankSign(sign)).length === layout.size,
  );
  const choices = [choose([]), choose(unsure)];
  if (narrow.length > 0 && narrow.length < unsure.length) choices.push(choose(narrow));
  // Where only some of them can be rows, the first and the last ones stand for all ways to choose.
  const needed = layout.size - (sure.length - unsure.length);
  if (needed > 0 && needed < narrow.length) {
    choices.push(choose(narrow.slice(0, needed)), choose(narrow.slice(-needed)));
  }
  return choices;
}
