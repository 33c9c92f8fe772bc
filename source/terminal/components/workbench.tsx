import { Box } from 'ink';
import { type ReactNode, useCallback, useInsertionEffect, useMemo, useSyncExternalStore } from 'react';
import type { App } from '../app-state.ts';
import type { Screen } from '../screen.ts';
import type { Store } from '../store.ts';
import type { Theme } from '../themes.ts';
import { ScreenRows } from './screen-rows.tsx';
import { TypedLine } from './typed-line.tsx';

export interface WorkbenchProps {
  readonly store: Store;
  /** Draws the whole screen; `draw` with everything but the workbench settled. */
  readonly draw: (app: App) => Screen;
  readonly themeOf: (app: App) => Theme;
  /**
   * Paints a drawn screen by itself, and leaves a row to Ink if there is one: Ink takes several milliseconds
   * for a screen of styled text. Without it Ink draws everything.
   */
  readonly paint?: (screen: Screen, theme: Theme, inkRow?: number) => void;
  /** Puts the terminal's own cursor on a place of the screen, or hides it. */
  readonly placeCursor?: (at: Screen['cursor']) => void;
}

/** The workbench on the screen: the one description of it, shown by Ink. */
export function Workbench({ store, draw, themeOf, paint, placeCursor }: WorkbenchProps): ReactNode {
  const app = useSyncExternalStore(store.subscribe, store.app);
  const screen = useMemo(() => draw(app), [app, draw]);
  const theme = themeOf(app);
  const typed = app.mode.kind === 'typed' ? app.mode : null;
  const place = screen.typedLine;
  const y = place?.y ?? 0;
  const inkRow = place?.y;
  useInsertionEffect(() => {
    paint?.(screen, theme, inkRow);
    if (!typed) placeCursor?.(screen.cursor);
  }, [paint, placeCursor, screen, theme, inkRow, typed]);
  const onCursor = useCallback((x: number) => placeCursor?.({ x, y }), [placeCursor, y]);
  if (!place || !typed) return paint ? null : <ScreenRows screen={screen} theme={theme} />;
  const row = (
    <TypedLine
      key={typed.entries}
      text={typed.text}
      indent={place.x}
      room={place.room}
      onChange={(text) => store.send({ kind: 'typed', text })}
      onSubmit={(text) => store.send({ kind: 'submit', text })}
      onCursor={onCursor}
    />
  );
  if (paint) return <Box marginTop={y}>{row}</Box>;
  return <ScreenRows screen={screen} theme={theme} over={{ y, row }} />;
}
