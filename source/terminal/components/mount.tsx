import { render } from 'ink';
import type { WorkbenchTerminal } from '../workbench-terminal.ts';
import { Workbench, type WorkbenchProps } from './workbench.tsx';

export interface Mounted {
  /** Rejects where Ink ends over an error; never settles otherwise. */
  readonly failed: Promise<never>;
  readonly unmount: () => void;
}

/** Puts the workbench on the terminal. What Ink needs may still be loading; hence the promise. */
export async function mountWorkbench(
  terminal: Pick<WorkbenchTerminal, 'ink' | 'placeCursor'>,
  props: Omit<WorkbenchProps, 'placeCursor'>,
): Promise<Mounted> {
  const instance = render(
    <Workbench {...props} placeCursor={(at) => terminal.placeCursor(at ?? undefined)} />,
    terminal.ink,
  );
  const failed = new Promise<never>((_, reject) => {
    instance.waitUntilExit().catch(reject);
  });
  return { failed, unmount: () => instance.unmount() };
}
