import { type ReactNode, useInsertionEffect, useMemo, useSyncExternalStore } from 'react';
import { draw } from '../draw.ts';
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

/** The workbench on the screen: the one description of it, drawn by Ink. */
export function Workbench({ store, theme, ascii, digits, placeCursor }: WorkbenchProps): ReactNode {
  const app = useSyncExternalStore(store.subscribe, store.app);
  const screen = useMemo(() => draw(app, { ascii, digits, tints: theme.tints }), [app, ascii, digits, theme]);
  useInsertionEffect(() => placeCursor?.(screen.cursor), [placeCursor, screen]);
  const plan = planScreen(app.size);
  const over =
    plan && app.mode.kind === 'typed'
      ? {
          y: plan.messageY,
          row: (
            <TypedLine
              text={app.mode.text}
              indent={Math.max(0, plan.textX - 2)}
              onChange={(text) => store.send({ kind: 'typed', text })}
              onSubmit={(text) => store.send({ kind: 'submit', text })}
            />
          ),
        }
      : undefined;
  return <ScreenRows screen={screen} theme={theme} over={over} />;
}
