import { type Glyph, runsOf, type Screen } from './screen.ts';
import type { Theme } from './themes.ts';

/** One SGR sequence a colour or attribute, as Ink's tokenizer takes them apart best. */
function sequences(sgr: string): string {
  const codes = sgr.split(';');
  let text = '';
  for (let i = 0; i < codes.length; i += 1) {
    const count = codes[i] === '38' || codes[i] === '48' ? (codes[i + 1] === '2' ? 5 : 3) : 1;
    text += `\x1b[${codes.slice(i, i + count).join(';')}m`;
    i += count - 1;
  }
  return text;
}

/** A row of the screen as styled text: runs of one look, each ended by a reset. No trailing blanks. */
export function rowText(row: readonly Glyph[], theme: Theme): string {
  return runsOf(row)
    .map(({ text, role, ground }) => {
      const sgr = theme.sgr(role, ground);
      return sgr === '' ? text : `${sequences(sgr)}${text}\x1b[0m`;
    })
    .join('');
}

/** A whole screen as styled lines. */
export const screenText = (screen: Screen, theme: Theme): string =>
  screen.rows.map((row) => `${rowText(row, theme)}\n`).join('');
