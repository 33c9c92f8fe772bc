import { type KeyEvent, keyChord, type TerminalEvent } from '../platform/key-event.ts';
import type { Disposition } from '../platform/key-stream.ts';
import { type App, keyModeOf } from './app-state.ts';
import type { Painting, WorkbenchOptions } from './painting.ts';
import { Store } from './store.ts';

/**
 * Takes the keys of a workbench that is on the screen already, until it is quit. Answers the exit code: 0, or 130
 * where Ctrl-C quit it. Keys count before Ink and React are loaded.
 */
export async function attend(
  opened: App,
  show: (app: App) => void,
  painting: Painting,
  { terminal, services }: Pick<WorkbenchOptions, 'terminal' | 'services'>,
): Promise<number> {
  let end: (code: number) => void = () => {};
  const ended = new Promise<number>((resolve) => {
    end = resolve;
  });
  const store = new Store(opened, services, {
    quit: (code) => end(code),
    suspend: terminal.suspend,
    redraw: terminal.redraw,
  });
  // Until the components are there, which takes a moment and keeps keys waiting, changes are shown from here.
  const stopShowing = store.subscribe(() => show(store.app()));
  const stopKeys = terminal.keys.subscribe((event) => handle(store, event));
  const stopSizes = terminal.onResize((size) => store.send({ kind: 'resize', size }));
  // It may have changed since the workbench was drawn.
  const size = terminal.size();
  if (size.columns !== opened.size.columns || size.rows !== opened.size.rows)
    store.send({ kind: 'resize', size });
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
