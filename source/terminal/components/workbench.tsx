import { type ReactNode, useCallback, useInsertionEffect, useMemo, useSyncExternalStore } from 'react';
import { draw, typedLinePlace } from '../draw.ts';
import { planScreen } from '../layout-sizes.ts';
import type { Screen } from '../screen.ts';
import type { Store } from '../store.ts';
import type { Theme } from '../themes.ts';
import { ScreenRows } from './screen-rows.tsx';
import { TypedLine } from './typed-line.tsx';

export interface WorkbenchProps {
  readonly store: Store;
  readonly theme: Theme;
  readonly ascii: boolean;
  readonly digits: 'large' | 'plain';
  /** Puts the terminal's own cursor on a place of the screen, or hides it. */
  readonly placeCursor?: (at: Screen['cursor']) => void;
}

/** The workbench on the screen: the one description of it, shown by Ink. */
export function Workbench({ store, theme, ascii, digits, placeCursor }: WorkbenchProps): ReactNode {
  const app = useSyncExternalStore(store.subscribe, store.app);
  const screen = useMemo(() => draw(app, { ascii, digits, tints: theme.tints }), [app, ascii, digits, theme]);
  const typed = app.mode.kind === 'typed' ? app.mode : null;
  useInsertionEffect(() => {
    if (!typed) placeCursor?.(screen.cursor);
  }, [placeCursor, screen, typed]);
  const plan = planScreen(app.size, app.sheet.state.layout);
  const y = plan?.messageY ?? 0;
  const onCursor = useCallback((x: number) => placeCursor?.({ x, y }), [placeCursor, y]);
  if (!plan || !typed) return <ScreenRows screen={screen} theme={theme} />;
  const row = (
    <TypedLine
      key={typed.entries}
      text={typed.text}
      indent={typedLinePlace(plan).x}
      room={typedLinePlace(plan).room}
      onChange={(text) => store.send({ kind: 'typed', text })}
      onSubmit={(text) => store.send({ kind: 'submit', text })}
      onCursor={onCursor}
    />
  );
  return <ScreenRows screen={screen} theme={theme} over={{ y, row }} />;
}
