import { blankFrame, type Frame } from '../platform/frame.ts';
import { blank, type Ground, isPlainBlank, type Role, type Screen } from './screen.ts';
import type { Theme } from './themes.ts';

/** Gives the number of the style that SGR parameters make; see FrameStream. */
export type StyleOf = (parameters: string) => number;

/** Paints screens as cells for a FrameStream. */
export class LayerPainter {
  readonly #styleOf: StyleOf;
  readonly #styles = new WeakMap<Theme, Map<Role, Map<Ground, number>>>();

  constructor(styleOf: StyleOf) {
    this.#styleOf = styleOf;
  }

  /** The screen cell by cell, with blank rows up to a height; it looks as its rows as text do. */
  paint({ width, height, rows }: Screen, theme: Theme, least = height): Frame {
    const known = this.#styles.get(theme) ?? new Map<Role, Map<Ground, number>>();
    this.#styles.set(theme, known);
    const style = (role: Role, ground: Ground): number => {
      const byGround = known.get(role) ?? new Map<Ground, number>();
      known.set(role, byGround);
      const number = byGround.get(ground) ?? this.#styleOf(theme.sgr(role, ground));
      byGround.set(ground, number);
      return number;
    };
    const frame = blankFrame(width, Math.max(height, least));
    const { graphemes, styles } = frame;
    // Nothing stands in most cells, and neighbours look alike in most others.
    let lastRole = blank.role;
    let lastGround = blank.ground;
    let last = style(lastRole, lastGround);
    for (let y = 0; y < height; y += 1) {
      const row = rows[y];
      for (let x = 0; x < width; x += 1) {
        const glyph = row[x];
        if (glyph === blank) continue;
        const role = isPlainBlank(glyph) ? 'text' : glyph.role;
        if (role !== lastRole || glyph.ground !== lastGround) {
          lastRole = role;
          lastGround = glyph.ground;
          last = style(role, lastGround);
        }
        graphemes[y * width + x] = glyph.char;
        styles[y * width + x] = last;
      }
    }
    return frame;
  }
}
