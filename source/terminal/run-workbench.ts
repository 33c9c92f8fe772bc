import { type App, asKept, openApp } from './app-state.ts';
import { makePainting, type WorkbenchOptions } from './painting.ts';

/**
 * Runs the workbench on a sheet until it is quit. Answers the exit code: 0, or 130 where Ctrl-C quit it. The
 * terminal stays open: closing it is the caller's. The first frame is on the screen before anything is loaded that
 * only keys need.
 */
export async function runWorkbench(options: WorkbenchOptions): Promise<number> {
  const { terminal, sheet, services } = options;
  const painting = makePainting(terminal, options);
  const show = (app: App) => {
    const screen = painting.draw(app);
    painting.paint(screen, painting.themeOf(app));
    terminal.placeCursor(screen.cursor ?? undefined);
  };
  const opened = openApp(sheet, terminal.size(), options.settings);
  const greeted = asKept({ ...opened, message: options.greeting ?? [] }, services.keeper);
  show(greeted);
  terminal.flush();
  terminal.listen();
  const { attend } = await import('./attend.ts');
  return attend(greeted, show, painting, options);
}
