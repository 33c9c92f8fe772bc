import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, watch as watchFiles } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { spawn } from '@lydell/node-pty';
import { keyBytes, pasteBytes } from './keys.ts';
import { Screen, type ScreenCell, type ScreenPicture, type TerminalModes } from './screen.ts';

/*
 * Runs a program in a real pseudo-terminal with a terminal emulator as its screen.
 *
 *   const app = openInkling(['--', grid]);            // or open(['node', 'x.js'])
 *   await app.waitFor('? keys');                      // text on the screen, or a predicate
 *   app.press('u', 'shift+up', 'ctrl+c');             // each in a write of its own
 *   app.type('12345jjjj');                            // one write: a burst
 *   app.paste(text);                                  // bracketed
 *   expect(app.screen()[3]).toContain('r2');
 *   expect(await app.exit).toEqual({ code: 0, signal: 0 });
 *
 * Nothing sleeps: `waitFor` looks again whenever output has been drawn, and a wait that is never answered
 * fails with the screen in its message. Call `closeAll()` in `afterEach`.
 */

export interface OpenOptions {
  /** Default 80. */
  readonly cols?: number;
  /** Default 24. */
  readonly rows?: number;
  /** On top of the fixed environment; `undefined` removes a variable. */
  readonly env?: Readonly<Record<string, string | undefined>>;
  readonly cwd?: string;
  /** A home to share with an earlier run (its `app.home`), to test restarts. Default: a new empty one. */
  readonly home?: string;
  /**
   * Runs the command under a shell in the same pseudo-terminal, which notes termios before and after, the
   * command's process id and its exit code: for `termios()`, `pid()` and `exitCode()`.
   */
  readonly watchTermios?: boolean;
}

export interface Exit {
  readonly code: number;
  /** 0, or the number of the signal that ended the process. */
  readonly signal: number;
}

export interface App {
  /** The temporary home: HOME, XDG directories and working directory live under it. */
  readonly home: string;
  /** Settles when the process has gone. */
  readonly exit: Promise<Exit>;
  /** Presses keys by name or character, each in its own write. */
  press(...keys: string[]): void;
  /** Sends text in one write, as a burst. */
  type(text: string): void;
  /** Sends bytes as they are. */
  send(bytes: string): void;
  paste(text: string): void;
  /** Waits until the text stands on the screen or the predicate holds. Default limit 10 s. */
  waitFor(wanted: string | RegExp | ((app: App) => boolean), limitMs?: number): Promise<void>;
  /** The visible lines without trailing blanks. */
  screen(): string[];
  /** The visible screen as one string. */
  text(): string;
  cell(x: number, y: number): ScreenCell;
  picture(): ScreenPicture;
  cursor(): { x: number; y: number; visible: boolean };
  modes(): TerminalModes;
  scrollback(): string[];
  resize(cols: number, rows: number): void;
  /** Everything the program has written so far. */
  output(): string;
  /** Sends a signal to the command itself (with `watchTermios`) or to the pseudo-terminal's child. */
  signal(name: NodeJS.Signals): void;
  /** Closes the terminal under the program, as when its window is closed. */
  hangUp(): void;
  /** With `watchTermios`: `stty -g` before and, once the command has gone, after. */
  termios(): { readonly before: string; readonly after: string };
  /** With `watchTermios`: the command's process id; waits for it to be known. */
  pid(): Promise<number>;
  /** With `watchTermios`: the command's exit code, also when the terminal is gone. Waits for it. */
  exitCode(limitMs?: number): Promise<number>;
  /** Ends the process if it still runs and removes the home. */
  close(): void;
}

/** The nearest folder above with a package.json, also when this file has been bundled elsewhere in it. */
function findRepository(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json')) && folder !== dirname(folder)) folder = dirname(folder);
  return folder;
}

const repository = findRepository();
const opened = new Set<App>();

/** Closes everything that was opened; for `afterEach`. */
export function closeAll(): void {
  for (const app of opened) app.close();
  opened.clear();
}

const watcher = `
trap : HUP INT QUIT TERM
stty -g > "$WATCH/before"
/bin/sh -c 'echo $$ > "$WATCH/pid.part"; mv "$WATCH/pid.part" "$WATCH/pid"; unset WATCH; exec "$@"' sh "$@"
code=$?
stty -g > "$WATCH/after" 2> /dev/null
echo $code > "$WATCH/code.part"; mv "$WATCH/code.part" "$WATCH/code"
exit $code`;

function environment(home: string, extra: OpenOptions['env']): Record<string, string> {
  const fixed: Record<string, string | undefined> = {
    PATH: process.env.PATH,
    HOME: home,
    TERM: 'xterm-256color',
    LANG: 'C.UTF-8',
    TZ: 'UTC',
    SHELL: '/bin/sh',
    XDG_CONFIG_HOME: join(home, 'config'),
    XDG_STATE_HOME: join(home, 'state'),
    XDG_DATA_HOME: join(home, 'data'),
    XDG_CACHE_HOME: join(home, 'cache'),
    ...extra,
  };
  return Object.fromEntries(
    Object.entries(fixed).filter((pair): pair is [string, string] => pair[1] !== undefined),
  );
}

/** Settles with the content of a file of the watching shell as soon as it is there. */
function waitForFile(directory: string, name: string, limitMs: number): Promise<string> {
  const path = join(directory, name);
  return new Promise((resolve, reject) => {
    const finish = (error?: Error) => {
      clearTimeout(timer);
      changes.close();
      if (error) reject(error);
      else resolve(readFileSync(path, 'utf8').trim());
    };
    const changes = watchFiles(directory, () => existsSync(path) && finish());
    const timer = setTimeout(() => finish(new Error(`${path} did not appear in ${limitMs} ms`)), limitMs);
    if (existsSync(path)) finish();
  });
}

/** Opens a command (`argv[0]` is looked up in PATH) in a pseudo-terminal of its own. */
export function open(argv: readonly string[], options: OpenOptions = {}): App {
  const { cols = 80, rows = 24 } = options;
  const ownHome = options.home === undefined;
  const home = options.home ?? mkdtempSync(join(tmpdir(), 'inkling-pty-'));
  const watch = join(home, '.watch');
  const env = environment(home, options.env);
  let command = argv;
  if (options.watchTermios) {
    rmSync(watch, { recursive: true, force: true });
    mkdirSync(watch);
    env.WATCH = watch;
    command = ['/bin/sh', '-c', watcher, 'sh', ...argv];
  }
  const screen = new Screen(cols, rows);
  const pty = spawn(command[0]!, command.slice(1), {
    name: env.TERM ?? 'dumb',
    cols,
    rows,
    cwd: options.cwd ?? home,
    env,
  });
  const received: string[] = [];
  const watchers = new Set<() => void>();
  const look = () => {
    if (!screen.modes().synchronizedOutput) for (const watcherOnce of [...watchers]) watcherOnce();
  };
  let gone = false;
  let drawn = Promise.resolve();
  screen.onReply((reply) => {
    if (!gone) pty.write(reply);
  });
  pty.onData((data) => {
    received.push(data);
    drawn = screen.write(data).then(look);
  });
  const exit = new Promise<Exit>((resolve) => {
    pty.onExit(({ exitCode, signal }) => {
      gone = true;
      void drawn.then(() => {
        for (const watcherOnce of [...watchers]) watcherOnce();
        resolve({ code: exitCode, signal: signal ?? 0 });
      });
    });
  });
  const write = (bytes: string) => {
    if (gone) throw new Error(`the program has gone; its last screen was\n${screen.dump()}`);
    pty.write(bytes);
  };

  const app: App = {
    home,
    exit,
    press: (...keys) => {
      for (const key of keys) write(keyBytes(key));
    },
    type: write,
    send: write,
    paste: (text) => write(pasteBytes(text)),
    waitFor: (wanted, limitMs = 10_000) => {
      const holds = () => {
        if (typeof wanted === 'function') return wanted(app);
        return typeof wanted === 'string' ? app.text().includes(wanted) : wanted.test(app.text());
      };
      return new Promise((resolve, reject) => {
        const finish = (error?: Error) => {
          clearTimeout(timer);
          watchers.delete(check);
          if (error) reject(error);
          else resolve();
        };
        const name = typeof wanted === 'function' ? 'the predicate' : String(wanted);
        const fail = (why: string) => finish(new Error(`${why} while waiting for ${name}\n${screen.dump()}`));
        const check = () => {
          try {
            if (holds()) finish();
            else if (gone) fail('the program ended');
          } catch (error) {
            finish(error instanceof Error ? error : new Error(String(error)));
          }
        };
        const timer = setTimeout(() => fail(`${limitMs} ms passed`), limitMs);
        watchers.add(check);
        check();
      });
    },
    screen: () => screen.lines(),
    text: () => screen.lines().join('\n'),
    cell: (x, y) => screen.cell(x, y),
    picture: () => screen.picture(),
    cursor: () => screen.cursor(),
    modes: () => screen.modes(),
    scrollback: () => screen.scrollback(),
    resize: (newCols, newRows) => {
      screen.resize(newCols, newRows);
      pty.resize(newCols, newRows);
    },
    output: () => received.join(''),
    signal: (name) => {
      if (options.watchTermios) process.kill(Number(readFileSync(join(watch, 'pid'), 'utf8')), name);
      else pty.kill(name);
    },
    hangUp: () => {
      gone = true;
      // Closing the master side hangs the terminal up; the kernel sends SIGHUP and further writes raise EIO.
      (pty as unknown as { destroy(): void }).destroy();
    },
    termios: () => ({
      before: readFileSync(join(watch, 'before'), 'utf8').trim(),
      after: readFileSync(join(watch, 'after'), 'utf8').trim(),
    }),
    pid: async () => Number(await waitForFile(watch, 'pid', 10_000)),
    exitCode: async (limitMs = 10_000) => Number(await waitForFile(watch, 'code', limitMs)),
    close: () => {
      opened.delete(app);
      if (!gone) {
        gone = true;
        pty.kill('SIGKILL');
      }
      if (ownHome) rmSync(home, { recursive: true, force: true, maxRetries: 3 });
    },
  };
  opened.add(app);
  return app;
}

/** The built program; `npm run build` first. */
export const program = join(repository, 'dist/main.js');

/** Opens the built program with these arguments. */
export function openInkling(args: readonly string[] = [], options: OpenOptions = {}): App {
  if (!existsSync(program)) throw new Error(`${program} is missing: run npm run build first`);
  return open([process.execPath, program, ...args], options);
}

/** The digits placed on the screen, one a cell, `.` where there is none: the plain layout at 80 x 24. */
export function digitsOn(app: App): string {
  return Array.from({ length: 81 }, (_, cell) => {
    const [row, column] = [Math.floor(cell / 9), cell % 9];
    return app.cell(3 + 6 * column + 2, 1 + 2 * row + Math.floor(row / 3)).text.trim() || '.';
  }).join('');
}

/** How many digits are placed there. */
export const placedOn = (app: App): number => digitsOn(app).replace(/[^1-9]/g, '').length;

/** Whether so many are. */
export const hasPlaced =
  (count: number) =>
  (app: App): boolean =>
    placedOn(app) === count;
