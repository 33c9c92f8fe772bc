import { blankFrame, type Frame } from '../platform/frame.ts';
import { type Ground, isPlainBlank, type Role, type Screen } from './screen.ts';
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
    let at = 0;
    for (const row of rows) {
      for (const glyph of row) {
        graphemes[at] = glyph.char;
        styles[at] = style(isPlainBlank(glyph) ? 'text' : glyph.role, glyph.ground);
        at += 1;
      }
    }
    return frame;
  }
}
