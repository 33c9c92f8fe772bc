import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type App, closeAll, type OpenOptions, open, openInkling } from '../tests/pty/harness.ts';
import { drawPicture, type PictureOptions } from './picture.ts';

/** One picture: how to start, what to press, and how it looks. */
export interface Scene extends PictureOptions {
  /** The file's name, without `.svg`. */
  readonly name: string;
  readonly cols: number;
  readonly rows: number;
  /** Arguments of the program; or a whole command with `command`. */
  readonly args?: readonly string[];
  readonly command?: readonly string[];
  /** On top of direct colours and UTF-8. */
  readonly env?: OpenOptions['env'];
  /** Presses keys and waits until what the picture should show is on the screen. */
  readonly play: (app: App) => Promise<void>;
}

/**
 * Plays each scene with the running program in a pseudo-terminal and writes its screen to a file in the
 * directory. Rejects with the screen in the message if a scene does not come to what it waits for.
 */
export async function renderScenes(scenes: readonly Scene[], directory: string): Promise<void> {
  mkdirSync(directory, { recursive: true });
  for (const scene of scenes) {
    const options = { cols: scene.cols, rows: scene.rows, env: { COLORTERM: 'truecolor', ...scene.env } };
    const app = scene.command ? open(scene.command, options) : openInkling(scene.args, options);
    try {
      await scene.play(app);
      writeFileSync(join(directory, `${scene.name}.svg`), drawPicture(app.picture(), scene));
    } finally {
      closeAll();
    }
  }
}
