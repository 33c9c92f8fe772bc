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
  // Where a terminal is too small to show the line, it takes what is typed all the same.
  const place = screen.typedLine ?? null;
  const y = place?.y ?? 0;
  const inkRow = place?.y;
  const isLineShown = typed !== null && place !== null;
  useInsertionEffect(() => {
    paint?.(screen, theme, inkRow);
    if (!isLineShown) placeCursor?.(screen.cursor);
  }, [paint, placeCursor, screen, theme, inkRow, isLineShown]);
  const onCursor = useCallback(
    (x: number) => {
      if (isLineShown) placeCursor?.({ x, y });
    },
    [placeCursor, y, isLineShown],
  );
  if (!typed) return paint ? null : <ScreenRows screen={screen} theme={theme} />;
  const row = (
    <TypedLine
      key={typed.entries}
      text={typed.text}
      indent={place?.x ?? 0}
      room={place?.room ?? 1}
      onChange={(text) => store.send({ kind: 'typed', text })}
      onSubmit={(text) => store.send({ kind: 'submit', text })}
      onCursor={onCursor}
    />
  );
  if (paint) return <Box marginTop={y}>{row}</Box>;
  if (place) return <ScreenRows screen={screen} theme={theme} over={{ y, row }} />;
  return (
    <Box flexDirection="column">
      <ScreenRows screen={screen} theme={theme} />
      <Box height={0} overflow="hidden">
        {row}
      </Box>
    </Box>
  );
}
