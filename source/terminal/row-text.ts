import { type Glyph, runsOf, type Screen } from './screen.ts';
import type { Theme } from './themes.ts';

/**
 * A row of the screen as styled text, without trailing blanks. One sequence where the look changes and no
 * more: what Ink costs goes with the length of what it has to read.
 */
export function rowText(row: readonly Glyph[], theme: Theme): string {
  let text = '';
  let current = '';
  for (const { text: piece, role, ground } of runsOf(row)) {
    const sgr = theme.sgr(role, ground);
    if (sgr !== current) {
      const reset = current === '' ? '' : sgr === '' ? '0' : '0;';
      text += `\x1b[${reset}${sgr}m`;
      current = sgr;
    }
    text += piece;
  }
  return current === '' ? text : `${text}\x1b[0m`;
}

/** A whole screen as styled lines. */
export const screenText = (screen: Screen, theme: Theme): string =>
  screen.rows.map((row) => `${rowText(row, theme)}\n`).join('');
