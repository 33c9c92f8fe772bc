import type { Sheet } from '../sheet/state.ts';
import type { App } from './app-state.ts';
import { draw } from './draw.ts';
import { LayerPainter } from './layer.ts';
import type { Screen } from './screen.ts';
import type { Services } from './services.ts';
import { type Settings, themesOf } from './settings.ts';
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
