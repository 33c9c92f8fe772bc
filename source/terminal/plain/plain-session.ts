import { parseCell } from '../../grid/names.ts';
import { isGridPerLine } from '../../grid/read.ts';
import type { Sheet } from '../../sheet/state.ts';
import { safeText } from '../../text/safe.ts';
import type { Action, ActionName } from '../actions.ts';
import { type App, canClimb, keyModeOf, openApp } from '../app-state.ts';
import { sayCellAt, sayCounts, tellings } from '../describing.ts';
import { type Asking, answerOf, type Engine, type Heard } from '../engine.ts';
import { actionNamed, actionsOf, actionTable, keyWord, named, sayAction } from '../keymap.ts';
import { searchActions } from '../listing.ts';
import type { Message } from '../messages.ts';
import type { SheetKeeper } from '../saving.ts';
import type { News, Services } from '../services.ts';
import { pens, type Settings } from '../settings.ts';
import { Store } from '../store.ts';
import type { Table } from '../table.ts';
import { sayChange, sayPen } from './say-change.ts';
import { inWords } from './spoken.ts';

/** What a line came to. */
export interface Spoken {
  readonly lines: readonly string[];
  /** The exit code where the line ends the session. */
  readonly quit: number | null;
  /** Whether the line could not be read. */
  readonly isWrong: boolean;
}

/** What the machine does for a session. */
export interface PlainOptions {
  /** Keeps the sheets, where they are to be kept. */
  readonly keeper?: SheetKeeper & Table;
  /** Has a question answered by calling for the whole answer, or says why there is none; absent: however long it takes. */
  readonly answer?: (asking: Asking, whole: () => Heard) => News;
  /** The most characters of a pasted grid that are read. */
  readonly pasteLimit?: number;
}

const isPen = (name: string): boolean => pens.some((pen) => pen === name);

/** What is said where nothing changed. */
const sayNothing = (app: App): string =>
  app.hint !== null && !canClimb(app) ? 'The hint has said all of it.' : 'Nothing changed.';

/** Actions that are about a screen or about single keys. */
const onScreenOnly = new Set([
  'suspend',
  'redraw',
  'more',
  'palette',
  'type',
  'submit',
  'clear-line',
  'cancel',
  'count',
]);

/**
 * The workbench without a screen: a line goes in, sentences come out. The same actions, the same reducer and
 * the same typed line as on the screen; a key's own sign is taken too.
 */
export class PlainSession {
  readonly #store: Store;
  #pasted: string[] | null = null;
  /** How many characters of a pasted grid there may be still. */
  #room = 0;
  readonly #pasteLimit: number;
  #out: string[] = [];
  #quit: number | null = null;

  constructor(
    sheet: Sheet,
    settings: Settings,
    engine: Engine,
    { keeper, answer, pasteLimit = 1_048_576 }: PlainOptions = {},
  ) {
    this.#pasteLimit = pasteLimit;
    const services: Services = {
      think: (asking, hear) => {
        const whole = () => answerOf(engine, asking);
        hear(answer ? answer(asking, whole) : whole());
      },
      stop: () => undefined,
      // Without a screen there is no clipboard to reach: the text itself is the copy.
      copy: (text) => {
        this.#say(...text.split('\n').filter((line) => line !== ''));
        return 'That is it as text.';
      },
      ...(keeper && { keeper, table: keeper }),
    };
    const keymap = named(settings.keymap);
    const app = openApp(sheet, { columns: 80, rows: 24 }, { ...settings, keymap });
    const nothing = () => undefined;
    const quit = (code: number) => {
      this.#quit = code;
    };
    this.#store = new Store(app, services, { quit, suspend: nothing, redraw: nothing });
  }

  /** The workbench as it stands. */
  get app(): App {
    return this.#store.app();
  }

  /** Whether the next lines are a grid's. */
  get isPasting(): boolean {
    return this.#pasted !== null;
  }

  /** What is said before the first line. */
  greeting(): string[] {
    const { state } = this.app.sheet;
    const slips = this.app.slips.map(({ text }) => inWords(`Slip: ${text}`));
    const name = safeText(state.name.trim());
    return [
      `${name === '' ? 'A grid' : name}: ${sayCounts(state)}`,
      ...slips,
      'help tells what can be typed, show tells the grid, quit ends.',
    ];
  }

  /** Does what a line says. */
  line(raw: string): Spoken {
    this.#out = [];
    const isWrong = this.#pasted ? this.#paste(raw) : this.#take(raw.trim());
    return { lines: this.#out, quit: this.#quit, isWrong };
  }

  /** Ends what was begun when there are no more lines. */
  end(): Spoken {
    this.#out = [];
    if (this.#pasted) this.#paste('');
    return { lines: this.#out, quit: this.#quit, isWrong: false };
  }

  #say(...lines: readonly string[]): void {
    this.#out.push(...lines);
  }

  /** A line of a grid that is being pasted; a blank one, or `end`, ends it. */
  #paste(raw: string): boolean {
    const lines = this.#pasted ?? [];
    const ends = raw.trim() === '' ? lines.length > 0 : /^end$/i.test(raw.trim());
    if (!ends) {
      this.#room -= raw.length + 1;
      if (raw.trim() !== '' && this.#room >= 0) lines.push(raw);
      return false;
    }
    this.#pasted = null;
    return this.#pasteText(lines.join('\n'), this.#room < 0);
  }

  #pasteText(text: string, truncated: boolean): boolean {
    this.#send({ kind: 'paste', text, truncated });
    return this.app.mode.kind !== 'paste';
  }

  /** Does a line; answers whether it could not be read. */
  #take(text: string): boolean {
    if (text === '') return false;
    const word = text.toLowerCase();
    if (word === 'paste') {
      this.#pasted = [];
      this.#room = this.#pasteLimit;
      this.#say('Type or paste the grid, then an empty line.');
      return false;
    }
    const { layout } = this.app.sheet.state;
    if (text.length >= layout.cellCount && isGridPerLine(text, layout)) return this.#pasteText(text, false);
    const help = /^(?:help|keys|\?)(?:\s+(.*))?$/.exec(word);
    if (help) {
      this.#say(...this.#help(help[1] ?? ''));
      return false;
    }
    if (this.#asKeys(text)) return false;
    const action = actionNamed(word);
    if (action && this.#canDo(action)) {
      this.#send({ kind: 'do', name: action.name }, action.name);
      return false;
    }
    if (this.app.mode.kind === 'paste') {
      this.#say('A pasted grid waits: open opens it, leave leaves it.');
      return true;
    }
    const before = this.#out.length;
    this.#send({ kind: 'submit', text });
    const isWrong = this.app.mode.kind === 'typed';
    // Left quietly: there is no line that could be mended.
    if (isWrong) this.#store.send({ kind: 'do', name: 'leave' });
    const cell = parseCell(layout, text);
    if (cell !== null) this.#out.splice(before, Infinity, inWords(sayCellAt(this.app.sheet.state, cell)));
    return isWrong;
  }

  /** Whether an action can be done by its name just now: in this mode, without a digit. */
  #canDo(action: Action): boolean {
    if (onScreenOnly.has(action.name) || action.keys.includes('1-9')) return false;
    return action.modes.includes(keyModeOf(this.app));
  }

  /** Single signs are keys; where digits are waited for, each of several is one. Answers whether they were. */
  #asKeys(text: string): boolean {
    const { kind } = this.app.mode;
    const keys = [...text.replaceAll(' ', '')];
    // One cell takes one digit in ink, but several marks.
    const marks = keyModeOf(this.app) === 'work' && this.app.pen !== 'ink';
    const several = marks || kind === 'enter' || kind === 'tag' || kind === 'goto';
    if (keys.length !== 1 && !(several && /^[0-9.]+$/.test(keys.join('')))) return false;
    const name = this.app.settings.keymap.actionFor(keyModeOf(this.app), keys[0]);
    const waits = ['find', 'hold', 'goto', 'copy'].includes(kind);
    if ((name === null && !waits) || (name !== null && onScreenOnly.has(name))) return false;
    const said = this.app;
    for (const chord of keys) this.#store.send({ kind: 'key', chord });
    this.#tell(said, name);
    return true;
  }

  /** One step; what it changes is said. */
  #send(message: Message, name: ActionName | null = null): void {
    const before = this.app;
    this.#store.send(message);
    this.#tell(before, name);
  }

  #tell(before: App, name: ActionName | null): void {
    const after = this.app;
    const lines = sayChange(before, after);
    if (lines.length === 0 && this.#out.length === 0 && this.#quit === null) {
      lines.push(name !== null && isPen(name) ? sayPen(after) : sayNothing(after));
    }
    // What cannot be read is told in the notation that it should be typed in.
    this.#say(...(after.mode.kind === 'typed' ? lines : lines.map(inWords)));
  }

  /** What can be typed just now, or what some words ask for. */
  #help(words: string): string[] {
    const mode = keyModeOf(this.app);
    const here = actionsOf(mode);
    const all = this.app.mode.kind === 'work' ? actionTable.filter((a) => a.typed || here.includes(a)) : here;
    const usable = all.filter(({ name }) => !onScreenOnly.has(name));
    const found = searchActions(usable, words, this.app.settings.keymap.keysOf);
    const lines = found.map((action) => {
      const { name, keys } = action;
      const help = sayAction(action);
      const [key] = this.app.settings.keymap.keysOf(name);
      const end = /[.?]$/.test(help) ? '' : '.';
      if (keys.some((each) => each === '1-9')) return `A digit: ${help}${end}`;
      const isSign = key !== undefined && [...key].length === 1 && here.includes(action);
      return `${name}${isSign ? `, or ${keyWord(key)}` : ''}: ${help}${end}`;
    });
    if (words !== '') return lines.length > 0 ? lines : ['Nothing fits.'];
    return [
      ...lines,
      ...tellings.map(([typed, does]) => `${typed}: ${does}.`),
      'paste: a grid line by line, then an empty line.',
      'r4c7: goes to the cell in row 4, column 7.',
      'r4c7=3: places a digit. r4c7:36: notes digits. r4c7<>3: strikes one. 5@b2:r1c4,r2c4: spots.',
      'r3c5<>7 by 7@c2 7@c8: an argument to be judged. find x-wing, trace r7c3: shown one by one.',
      'help and a word: what the word asks for.',
    ];
  }
}
