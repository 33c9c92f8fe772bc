import { render } from 'ink';
import { type KeyEvent, keyChord, type TerminalEvent } from '../platform/key-event.ts';
import type { Disposition, KeyStream } from '../platform/key-stream.ts';
import type { Sheet } from '../sheet/state.ts';
import { keyModeOf, openApp } from './app-state.ts';
import { Workbench } from './components/workbench.tsx';
import { actionFor } from './keymap.ts';
import type { TerminalSize } from './layout-sizes.ts';
import type { Services } from './services.ts';
import { Store } from './store.ts';
import { makeTheme, type ThemeOptions } from './themes.ts';

/** The terminal as the workbench needs it. What opens and closes it is not the workbench's affair. */
export interface WorkbenchTerminal {
  readonly keys: Pick<KeyStream, 'subscribe' | 'ink'>;
  /** What Ink writes its frames to. */
  readonly frames: NodeJS.WritableStream & {
    placeCursor(at: { readonly x: number; readonly y: number } | undefined): void;
    repaint(): void;
  };
  size(): TerminalSize;
  /** Calls the listener when the size has changed; the answer ends that. */
  onResize(listener: () => void): () => void;
  /** Hands the terminal back and stops, until the shell goes on with the program. */
  suspend(): void;
}

export interface WorkbenchOptions {
  readonly terminal: WorkbenchTerminal;
  readonly sheet: Sheet;
  readonly services: Services;
  readonly theme: ThemeOptions;
  /** Draw with characters below 0x80 only. */
  readonly ascii?: boolean;
  /** How placed digits are drawn where there is room. Default `large`. */
  readonly digits?: 'large' | 'plain';
}

/**
 * Runs the workbench until it is quit; answers the exit code: 0, or 130 after Ctrl-C. The terminal must be
 * open (alternate screen, raw mode, bracketed paste) and is left open.
 */
export async function runWorkbench(options: WorkbenchOptions): Promise<number> {
  const { terminal, sheet, services, ascii = false, digits = 'large' } = options;
  let exitCode = 0;
  const store = new Store(openApp(sheet, terminal.size()), services, {
    quit: (code) => {
      exitCode = code;
      instance.unmount();
    },
    suspend: () => terminal.suspend(),
    redraw: () => terminal.frames.repaint(),
  });

  const onEvent = (event: TerminalEvent): Disposition => {
    if (event.kind === 'paste') {
      store.send({ kind: 'paste', text: event.text, truncated: event.truncated });
      return true;
    }
    return event.kind === 'key' ? onKey(event) : false;
  };
  const onKey = (key: KeyEvent): Disposition => {
    const mode = keyModeOf(store.app());
    const chord = keyChord(key);
    // What is typed into the typed line is Ink's, even before the line is on the screen.
    if (mode === 'typed') {
      const name = actionFor(mode, chord);
      if (name === null || name === 'submit') return 'ink';
    }
    store.send({ kind: 'key', chord });
    return true;
  };

  const instance = render(
    <Workbench
      store={store}
      theme={makeTheme(options.theme)}
      ascii={ascii}
      digits={digits}
      placeCursor={(at) => terminal.frames.placeCursor(at ?? undefined)}
    />,
    {
      stdout: terminal.frames as unknown as NodeJS.WriteStream,
      stdin: terminal.keys.ink as unknown as NodeJS.ReadStream,
      exitOnCtrlC: false,
      patchConsole: false,
      maxFps: 120,
    },
  );
  const unsubscribe = terminal.keys.subscribe(onEvent);
  const stopResizing = terminal.onResize(() => store.send({ kind: 'resize', size: terminal.size() }));
  try {
    await instance.waitUntilExit();
  } finally {
    stopResizing();
    unsubscribe();
  }
  return exitCode;
}
