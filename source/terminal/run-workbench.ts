import { type KeyEvent, keyChord, type TerminalEvent } from '../platform/key-event.ts';
import type { Disposition } from '../platform/key-stream.ts';
import type { Sheet } from '../sheet/state.ts';
import { type App, keyModeOf, openApp } from './app-state.ts';
import { draw } from './draw.ts';
import { LayerPainter } from './layer.ts';
import type { Screen } from './screen.ts';
import type { Services } from './services.ts';
import { type Settings, themesOf } from './settings.ts';
import { Store } from './store.ts';
import type { Theme, ThemeOptions } from './themes.ts';
import type { WorkbenchTerminal } from './workbench-terminal.ts';

export interface WorkbenchOptions {
  readonly terminal: WorkbenchTerminal;
  readonly sheet: Sheet;
  readonly services: Services;
  /** What is said at the beginning. Safe to show. */
  readonly greeting?: readonly string[];
  /** What the terminal's colours can do; the theme is the settings'. */
  readonly theme: ThemeOptions;
  readonly settings?: Settings;
  /** Draw with characters below 0x80 only. Default false. */
  readonly ascii?: boolean;
  /** How placed digits are drawn where there is room. Default `large`. */
  readonly digits?: 'large' | 'plain';
}

/** How the workbench comes onto a terminal: drawn as data, shown in a theme, painted as cells. */
export interface Painting {
  readonly draw: (app: App) => Screen;
  readonly themeOf: (app: App) => Theme;
  readonly paint: (screen: Screen, theme: Theme, inkRow?: number) => void;
}

/** The painting of a terminal. */
export function makePainting(
  terminal: Pick<WorkbenchTerminal, 'showLayer' | 'size' | 'styleOf'>,
  options: Pick<WorkbenchOptions, 'ascii' | 'digits' | 'theme'>,
): Painting {
  const { ascii = false, digits = 'large' } = options;
  const themeFor = themesOf(options.theme);
  const themeOf = (app: App): Theme => themeFor(app.settings.theme);
  const painter = new LayerPainter(terminal.styleOf);
  return {
    themeOf,
    draw: (app) => draw(app, { ascii, digits, tints: themeOf(app).tints }),
    paint: (screen, theme, inkRow) => {
      terminal.showLayer({ frame: painter.paint(screen, theme, terminal.size().rows), inkRow });
    },
  };
}

/**
 * Runs the workbench on a sheet until it is quit. Answers the exit code: 0, or 130 where Ctrl-C quit it. The
 * terminal stays open: closing it is the caller's. The first frame is on the screen, and keys count, before
 * Ink and React are loaded.
 */
export async function runWorkbench(options: WorkbenchOptions): Promise<number> {
  const { terminal, sheet, services } = options;
  const painting = makePainting(terminal, options);
  let end: (code: number) => void = () => {};
  const ended = new Promise<number>((resolve) => {
    end = resolve;
  });
  const opened = { ...openApp(sheet, terminal.size(), options.settings), message: options.greeting ?? [] };
  const store = new Store(opened, services, {
    quit: (code) => end(code),
    suspend: terminal.suspend,
    redraw: terminal.redraw,
  });
  const show = () => {
    const screen = painting.draw(store.app());
    painting.paint(screen, painting.themeOf(store.app()));
    terminal.placeCursor(screen.cursor ?? undefined);
  };
  show();
  terminal.flush();
  // Until the components are there, which takes a moment and keeps keys waiting, changes are shown from here.
  const stopShowing = store.subscribe(show);

  const stopKeys = terminal.keys.subscribe((event) => handle(store, event));
  const stopSizes = terminal.onResize((size) => store.send({ kind: 'resize', size }));
  try {
    const early = await Promise.race([ended, terminal.quiet()]);
    if (early !== undefined) return early;
    const { mountWorkbench } = await import('./components/mount.tsx');
    const mounted = await mountWorkbench(terminal, { store, ...painting });
    stopShowing();
    terminal.settleDown();
    try {
      return await Promise.race([ended, mounted.failed]);
    } finally {
      mounted.unmount();
    }
  } finally {
    stopSizes();
    stopKeys();
  }
}

/** Hands an event of the terminal to the workbench. */
export function handle(store: Store, event: TerminalEvent): Disposition {
  switch (event.kind) {
    case 'paste':
      store.send({ kind: 'paste', text: event.text, truncated: event.truncated });
      return dealtWith(store);
    case 'key':
      return handleKey(store, event);
    case 'mouse':
      // Reports come only where the settings ask for the mouse.
      if (event.action !== 'press' || event.button !== 'left') return true;
      store.send({ kind: 'click', x: event.x, y: event.y });
      return true;
    case 'focus':
    case 'reply':
      return false;
  }
}

/** What the typed line does with keys that type nothing. */
const lineKeys: ReadonlySet<string> = new Set(['left', 'right', 'backspace', 'delete']);

function handleKey(store: Store, key: KeyEvent): Disposition {
  const app = store.app();
  const mode = keyModeOf(app);
  const chord = keyChord(key);
  const name = app.settings.keymap.actionFor(mode, chord);
  // What is typed into the typed line is Ink's, even before the line is on the screen.
  if (mode === 'typed' && name === null) {
    if (key.text !== undefined) return 'ink-text';
    // Anything else would be typed as the letter in it.
    return lineKeys.has(chord) ? 'ink' : true;
  }
  if (name === 'submit') return 'ink';
  store.send({ kind: 'key', chord });
  return mode === 'typed' ? dealtWith(store) : true;
}

/** A typed line that was changed from outside is mounted anew, and only then takes what is typed next. */
const dealtWith = (store: Store): Disposition => (keyModeOf(store.app()) === 'typed' ? 'shown' : true);
