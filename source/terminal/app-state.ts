import type { Candidate, Cell, Digit } from '../grid/layout.ts';
import type { NamedGrid } from '../grid/read.ts';
import type { ArgueAnswer } from '../hint/argue-words.ts';
import type { Drawing, HintRung, ToldLadder } from '../hint/rung.ts';
import type { Standing } from '../sheet/look-over.ts';
import { reduce } from '../sheet/sheet.ts';
import { slipsOf } from '../sheet/slips.ts';
import type { Sheet, SheetState, Slip, TagLetter } from '../sheet/state.ts';
import type { KeyMode } from './action.ts';
import type { ActionName } from './actions.ts';
import type { Asking } from './engine.ts';
import type { TerminalSize } from './layout-sizes.ts';
import { isAtRisk, keptNowhere, type Saving, type SheetKeeper } from './saving.ts';
import type { Series, Shown } from './series.ts';
import { defaultSettings, type Pen, type Settings, type SpotHouse } from './settings.ts';

/** What is open over the sheet. */
export type Mode =
  | { readonly kind: 'work' | 'find' | 'hold' | 'copy' | 'enter' }
  /**
   * The actions of the mode that it was called from, over everything: all keys at a glance, or those that
   * `text` asks for, one of them chosen, counted from 0.
   */
  | { readonly kind: 'help' | 'palette'; readonly over: Mode; readonly text: string; readonly at: number }
  /** A key is waited for that is to be done so many times; null: no digit yet. */
  | { readonly kind: 'count'; readonly count: number | null }
  | { readonly kind: 'tag'; readonly tag: TagLetter }
  | { readonly kind: 'goto'; readonly row: number | null }
  /** A digit from ten on is waited for, for the mode that it was called from. */
  | { readonly kind: 'ten'; readonly over: Mode }
  /** `entries` counts what changed the line otherwise than key by key: its cursor then goes to its end. */
  | {
      readonly kind: 'typed';
      readonly text: string;
      readonly entries: number;
      /** How many lines back the one is that was called up again; absent: none was. */
      readonly back?: number;
    }
  | {
      readonly kind: 'paste';
      readonly grids: readonly NamedGrid[];
      readonly index: number;
      /** How many solutions the one shown has, as soon as that is known. */
      readonly solutions: Standing | null;
    };

/** A typed argument with its answer. */
export interface Argued {
  readonly text: string;
  readonly answer: ArgueAnswer;
  readonly on: SheetState;
}

/** A digit as it was written with a pen. */
export interface Written {
  readonly pen: Pen;
  readonly spotHouse: SpotHouse;
  readonly digit: Digit;
}

/** Which sheets of this run lie before the one on the table and behind it, the nearest last, each by its place. */
export interface Trail {
  readonly place: number;
  readonly before: readonly number[];
  readonly after: readonly number[];
  /** The sheet on the table as it was put there. */
  readonly laid: Sheet;
  /** Whether it was gone back to. */
  readonly isBack: boolean;
}

/** Everything that the screen is drawn from. Immutable. */
export interface App {
  readonly sheet: Sheet;
  readonly trail: Trail;
  /** What is wrong on the sheet as it stands; follows `sheet`. */
  readonly slips: readonly Slip[];
  readonly size: TerminalSize;
  readonly settings: Settings;
  readonly mode: Mode;
  readonly cursor: Cell;
  /** Cells that are written all at once; empty: the cell under the cursor is. */
  readonly picked: ReadonlySet<Cell>;
  /** What was written last, to be written once more. */
  readonly last: Written | null;
  /** The lines that were typed and understood, or left as they were, the last one first. */
  readonly typedLines: readonly string[];
  readonly pen: Pen;
  readonly spotHouse: SpotHouse;
  /** The digit in hand, for writing digit first. */
  readonly held: Digit | null;
  /** The digit whose places are shown. */
  readonly found: Digit | null;
  readonly showBivalue: boolean;
  readonly hint: { readonly ladder: ToldLadder; readonly at: number } | null;
  /** The argument that was typed last, its answer, and the sheet that it is about. */
  readonly argued: Argued | null;
  /** What was asked to be found or traced; goes when the sheet changes, a hint shows, or it is left. */
  readonly series: Series | null;
  /**
   * What is being thought about, what was asked for meanwhile that has to wait for the answer, and whether it
   * takes long enough to be told of. A changed sheet or another question ends it.
   */
  readonly thinking: {
    readonly asking: Asking;
    readonly waiting: readonly ActionName[];
    readonly isSlow: boolean;
  } | null;
  /** What was last said; several lines go to the panel. Empty is the normal case. */
  readonly message: readonly string[];
  /** Which page of a text that does not fit is shown, counted from 0 and round again. */
  readonly page: number;
  /** Quitting was asked for once, with work that is not saved. */
  readonly quitAsked: boolean;
  /** How far the sheet is saved. */
  readonly saving: Saving;
}

/** The workbench as it opens on a sheet. */
export function openApp(sheet: Sheet, size: TerminalSize, settings: Settings = defaultSettings): App {
  return {
    sheet,
    trail: { place: 0, before: [], after: [], laid: sheet, isBack: false },
    slips: slipsOf(sheet),
    size,
    settings,
    mode: { kind: 'work' },
    cursor: Math.floor(sheet.state.layout.cellCount / 2),
    picked: new Set(),
    last: null,
    typedLines: [],
    pen: settings.pen,
    spotHouse: settings.spotHouse,
    held: null,
    found: null,
    showBivalue: false,
    hint: null,
    argued: null,
    series: null,
    thinking: null,
    message: [],
    page: 0,
    quitAsked: false,
    saving: keptNowhere,
  };
}

/** The workbench with what the keeper of its sheet, if there is one, says of saving. */
export const asKept = (app: App, keeper: SheetKeeper | undefined): App =>
  keeper ? { ...app, saving: keeper.saving() } : app;

/** How an action is called where a person is told to use it: by its first key. */
export const keyOf = (app: App, name: ActionName): string => app.settings.keymap.keyOf(name);

/** Which keys count just now. */
export function keyModeOf(app: App): KeyMode {
  if (app.mode.kind !== 'work') return app.mode.kind;
  // While a hint is looked for, keys are taken as they will be when it is there.
  if (app.hint || app.thinking?.asking.kind === 'find-hint') return 'hint';
  return app.series ? 'series' : 'work';
}

/** The rung that shows; null where there is no hint. All that may be shown of a hint comes from here. */
export const rungOf = (app: App): HintRung | null => app.hint?.ladder.rungs[app.hint.at] ?? null;

/** The argument that shows: until the sheet changes, a hint is asked for, or it is left. */
export const arguedOf = (app: App): Argued | null =>
  app.hint === null && app.argued?.on === app.sheet.state ? app.argued : null;

/** The one of a series that stands on the screen; null where there is none. */
export const shownOf = (app: App): Shown | null => {
  const { series } = app;
  return series?.shown[series.at] ?? null;
};

/** The sheet that the grid shows: the person's own, but within a series with what it has shown before. */
export function stateShown(app: App): SheetState {
  const before = shownOf(app)?.before;
  if (!before || before.placements.length + before.strikes.length === 0) return app.sheet.state;
  return reduce(app.sheet, { kind: 'take', ...before }).state;
}

/** What is drawn over the grid. */
export const drawingOf = (app: App): Drawing | null =>
  rungOf(app)?.drawing ?? arguedOf(app)?.answer.drawing ?? shownOf(app)?.drawing ?? null;

/** Whether the ladder tells all and its step can be taken. */
export const canTake = (app: App): boolean =>
  app.hint !== null && app.hint.at === app.hint.ladder.rungs.length - 1 && app.hint.ladder.written !== null;

/** Whether the hint has more to tell. */
export const canClimb = (app: App): boolean =>
  app.hint !== null && app.hint.at < app.hint.ladder.rungs.length - 1;

/** Whether something on the sheet would be lost by quitting. */
export const hasUnsavedWork = (app: App): boolean => isAtRisk(app.saving);

/** A candidate of the cell under the cursor. */
export const candidateHere = (app: App, digit: Digit): Candidate =>
  app.cursor * app.sheet.state.layout.size + digit - 1;
