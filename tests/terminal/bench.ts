import { askSheet } from '../../source/commands/ask-sheet.ts';
import { plain } from '../../source/grid/layout.ts';
import { argueOnSheet } from '../../source/hint/argue.ts';
import { hintFor } from '../../source/hint/ladder.ts';
import type { ToldLadder } from '../../source/hint/rung.ts';
import type { View } from '../../source/path/step.ts';
import { isRight } from '../../source/sheet/look-over.ts';
import { newSheet } from '../../source/sheet/sheet.ts';
import type { Sheet } from '../../source/sheet/state.ts';
import { type App, openApp } from '../../source/terminal/app-state.ts';
import { type DrawOptions, draw } from '../../source/terminal/draw.ts';
import { answerOf, type Engine } from '../../source/terminal/engine.ts';
import { plainRows } from '../../source/terminal/screen.ts';
import { Store } from '../../source/terminal/store.ts';

/** Line 1333 of the published random-minimal-2000 set, the grid that the design study was drawn with. */
export const grid1333 = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';

/** Line 257 of the same set. */
export const grid257 = '...7.5......2.......3..8.4........7.56....9.3..7..32...45...1..82..9...59...1..82';

export const digitsOf = (line: string): number[] =>
  [...line].map((sign) => (sign === '.' ? 0 : Number(sign)));

export const sheetOf = (line: string, name = 'a grid'): Sheet => newSheet(plain, digitsOf(line), name);

const ladders = new Map<string, ToldLadder | null>();

/** The same view has the same ladder: looked for once for all tests of a file. */
function cachedHint(view: View): ToldLadder | null {
  const key = JSON.stringify([
    [...view.position.placed],
    [...view.position.candidates],
    view.claims,
    view.kind,
  ]);
  const known = ladders.get(key);
  if (known !== undefined) return known;
  const found = hintFor(view);
  ladders.set(key, found);
  return found;
}

export interface Bench {
  readonly store: Store;
  /** What was copied and which of quit, suspend and redraw were asked for, in order. */
  readonly done: string[];
  readonly app: () => App;
  /** Presses keys by chord, parted by blanks; `:` and text without blanks types that line. */
  readonly press: (keys: string) => void;
  readonly type: (line: string) => void;
  readonly paste: (text: string) => void;
  readonly rows: (options?: Partial<DrawOptions>) => string[];
}

const engineHere: Engine = {
  findHint: cachedHint,
  argue: argueOnSheet,
  ask: askSheet,
  isRight: (state) => isRight(state),
};

/** A workbench without a terminal, whose engine answers at once. */
export function openBench(sheet: Sheet, columns = 80, rows = 24, engine: Partial<Engine> = {}): Bench {
  const done: string[] = [];
  const store = new Store(
    openApp(sheet, { columns, rows }),
    {
      think: (asking, hear) => hear(answerOf({ ...engineHere, ...engine }, asking)),
      stop: () => undefined,
      copy: (text) => {
        done.push(text);
        return null;
      },
    },
    {
      quit: (code) => done.push(`quit ${code}`),
      suspend: () => done.push('suspend'),
      redraw: () => done.push('redraw'),
    },
  );
  const key = (chord: string) => store.send({ kind: 'key', chord });
  const type = (line: string) => {
    key(':');
    store.send({ kind: 'submit', text: line });
  };
  return {
    store,
    done,
    app: store.app,
    type,
    press: (keys) => {
      for (const chord of keys.split(' ')) key(chord);
    },
    paste: (text) => store.send({ kind: 'paste', text, truncated: false }),
    rows: (options = {}) =>
      plainRows(draw(store.app(), { ascii: false, tints: true, digits: 'large', ...options })),
  };
}
