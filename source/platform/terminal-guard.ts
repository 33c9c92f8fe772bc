import { closeSync, writeSync } from 'node:fs';
import { safeText } from '../text/safe.ts';
import { systemTimer, type Timer } from './key-stream.ts';

/** The terminal's input side, as far as its line discipline goes; a `tty.ReadStream` is one. */
export interface RawModeDevice {
  setRawMode(on: boolean): unknown;
}

/** Why the program ends. */
export type ExitReason = 'quit' | 'crash' | 'signal' | 'hangup';

/** Saves what must not be lost. Its synchronous part always runs to its end. */
export type ExitHook = (reason: ExitReason) => void | PromiseLike<void>;

export interface TerminalGuardOptions {
  readonly keys: RawModeDevice;
  /** The terminal's file descriptor for output; usually 1. */
  readonly outputFd: number;
  /** Where crash text goes; usually 2. */
  readonly errorFd?: number;
  /** Called when the screen has become ours, at first and after a suspension: draw everything. */
  readonly onEnter?: () => void;
  /** Called just before the screen is given back: draw nothing any more. */
  readonly onLeave?: () => void;
  /** Hands over, once, what was held back from the screen meanwhile; it is printed to stderr. */
  readonly takeHeldText?: () => string;
  /** Puts a crash into words, already safe to show; may have several lines. */
  readonly describeCrash?: (error: unknown) => string;
  readonly timer?: Timer;
}

const enterModes = '\x1b[?1049h\x1b[?25l\x1b[?2004h';
const mouseOn = '\x1b[?1002h\x1b[?1006h';
const mouseOff = '\x1b[?1006l\x1b[?1003l\x1b[?1002l\x1b[?1000l';
/** Whatever was under way: end the update, plain style, reports and paste marks off, blank, back, cursor. */
const leaveModes = `\x1b[?2026l\x1b[m${mouseOff}\x1b[?1004l\x1b[?2004l\x1b[2J\x1b[H\x1b[?1049l\x1b[?25h`;

/** Signals that end the program, with their numbers. */
const deadly = { SIGHUP: 1, SIGINT: 2, SIGQUIT: 3, SIGTERM: 15 } as const;
type DeadlySignal = keyof typeof deadly;
const deadlySignals = Object.keys(deadly) as DeadlySignal[];

/** How long what the exit hooks have begun may take after a signal, a hang-up or a crash. */
const flushLimitMs = 150;
/** How long after waking up the news of it may come. */
const wakeLimitMs = 200;
const writeRetries = 1000;

/** Writes all of it, now; a terminal that is gone or stuck is not an error here. */
function writeNow(fd: number, text: string): void {
  let rest = Buffer.from(text);
  for (let tries = 0; rest.length > 0 && tries < writeRetries; ) {
    try {
      rest = rest.subarray(writeSync(fd, rest));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') return;
      tries++;
    }
  }
}

function describe(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  return `inkling: internal error: ${safeText(message)}`;
}

/**
 * Keeps the terminal safe: takes it over (raw mode, alternate screen, hidden cursor, bracketed paste) and
 * gives it back as it was on every way out, with synchronous writes. Exit codes: 0 for `close`, 1 for an
 * exception or an unhandled rejection, 129, 130, 131 and 143 for SIGHUP, SIGINT, SIGQUIT and SIGTERM, 129
 * when the terminal itself has gone. Text about a crash is printed after the alternate screen was left.
 *
 * Ctrl-Z and Ctrl-C are keys in raw mode: whoever reads the keys calls `suspend` and `exit(130)`.
 */
export class TerminalGuard {
  readonly #options: TerminalGuardOptions;
  readonly #timer: Timer;
  readonly #hooks = new Set<ExitHook>();
  readonly #signalHandlers: readonly (readonly [NodeJS.Signals, () => void])[];
  readonly #crash = (error: unknown) => this.crash(error);
  readonly #restore = () => {
    this.#leave();
    this.#say('');
  };
  readonly #stop = () => this.suspend('self');
  readonly #wake = () => this.#onContinue();
  /** Whether the screen is ours right now. */
  #inside = false;
  /** Whether the guard is on duty: from `enter` to the end, also while suspended. */
  #onDuty = false;
  #ending = false;
  /** Ending without haste: a signal then ends at once. */
  #closing = false;
  #mouse = false;
  /** Set while the news that we were woken up is still to come. */
  #wakeCancel: (() => void) | undefined;

  constructor(options: TerminalGuardOptions) {
    this.#options = options;
    this.#timer = options.timer ?? systemTimer;
    this.#signalHandlers = deadlySignals.map((signal) => [
      signal,
      () => void this.#end(128 + deadly[signal], signal === 'SIGHUP' ? 'hangup' : 'signal'),
    ]);
  }

  /** Takes the terminal over and watches every way out. */
  enter(): void {
    if (this.#onDuty) return;
    this.#onDuty = true;
    for (const [signal, handler] of this.#signalHandlers) process.on(signal, handler);
    process.on('SIGTSTP', this.#stop);
    process.on('SIGCONT', this.#wake);
    process.on('uncaughtException', this.#crash);
    process.on('unhandledRejection', this.#crash);
    process.on('exit', this.#restore);
    this.#takeOver();
  }

  /** Registers what must be saved before any exit; the answer takes it back. */
  beforeExit(hook: ExitHook): () => void {
    this.#hooks.add(hook);
    return () => this.#hooks.delete(hook);
  }

  /** Mouse reports; off unless asked for. */
  setMouse(on: boolean): void {
    this.#mouse = on;
    if (this.#inside) writeNow(this.#options.outputFd, on ? mouseOn : mouseOff);
  }

  /**
   * Gives the terminal back and stops the process until it is continued (`fg`); then takes it over again and
   * has everything drawn. Stops the whole job, as the terminal does for Ctrl-Z, or only this process. Where
   * nobody could continue it (no job control) the system ignores the stop, and the screen comes right back.
   */
  suspend(whom: 'job' | 'self' = 'job'): void {
    if (!this.#inside || this.#ending) return;
    this.#leave();
    process.off('SIGTSTP', this.#stop); // with the default action the signal stops us in the call below
    process.kill(whom === 'job' ? 0 : process.pid, 'SIGTSTP');
    this.#wakeCancel = this.#timer.after(wakeLimitMs, () => {
      this.#wakeCancel = undefined;
    });
    process.on('SIGTSTP', this.#stop);
    this.#takeOver();
  }

  /** Runs the exit hooks to their end, gives the terminal back and lets go; the process may go on. */
  async close(): Promise<void> {
    if (this.#ending) return;
    this.#ending = true;
    this.#closing = true;
    this.#leave();
    const troubles = await this.#flush('quit', undefined);
    this.#letGo();
    this.#say(troubles);
  }

  /** Gives the terminal back, flushes, prints the text to stderr, if any, and ends the process. */
  exit(code: number, text = ''): void {
    void this.#end(code, code === 0 ? 'quit' : 'signal', text);
  }

  /** Ends the process because of an error that nobody handled. Exit code 1. */
  crash(error: unknown): void {
    const describeCrash = this.#options.describeCrash ?? describe;
    const stack = process.env.DEBUG && error instanceof Error && error.stack;
    const text = stack ? safeText(stack, { keepNewlines: true }) : describeCrash(error);
    void this.#end(1, 'crash', text.endsWith('\n') ? text : `${text}\n`);
  }

  /** Ends the process because its terminal has gone. Exit code 129. */
  hangUp(): void {
    void this.#end(129, 'hangup');
  }

  #takeOver(): void {
    // From off to on: while we were stopped the shell has set modes that the stream does not know about.
    this.#rawMode(false);
    this.#rawMode(true);
    this.#inside = true;
    writeNow(this.#options.outputFd, enterModes + (this.#mouse ? mouseOn : ''));
    this.#options.onEnter?.();
  }

  #leave(): void {
    if (!this.#inside) return;
    this.#inside = false;
    this.#options.onLeave?.();
    writeNow(this.#options.outputFd, leaveModes);
    this.#rawMode(false);
  }

  #rawMode(on: boolean): void {
    try {
      this.#options.keys.setRawMode(on);
    } catch {
      // The terminal has gone; the read error or SIGHUP that says so ends the program.
    }
  }

  #onContinue(): void {
    if (this.#wakeCancel) {
      this.#wakeCancel();
      this.#wakeCancel = undefined;
    } else if (this.#inside && !this.#ending) this.#takeOver(); // somebody stopped us without asking
  }

  async #end(code: number, reason: ExitReason, text = ''): Promise<void> {
    if (this.#closing) process.exit(code);
    if (this.#ending) return;
    this.#ending = true;
    this.#leave();
    const troubles = await this.#flush(reason, flushLimitMs);
    this.#say(text + troubles);
    // At exit Node sets the modes of its terminals once more and aborts if one has been hung up.
    if (reason === 'hangup') for (const fd of [0, 1, 2]) closeQuietly(fd);
    process.exit(code);
  }

  #say(text: string): void {
    const all = (this.#options.takeHeldText?.() ?? '') + text;
    if (all !== '') writeNow(this.#options.errorFd ?? 2, all);
  }

  /** Runs the hooks, waits for what they began, within the limit, and says what went wrong. */
  async #flush(reason: ExitReason, limitMs: number | undefined): Promise<string> {
    let troubles = '';
    const trouble = (error: unknown) => {
      const message = error instanceof Error ? error.message : String(error);
      troubles += `inkling: could not finish: ${safeText(message)}\n`;
    };
    const begun = [...this.#hooks].map(async (hook) => {
      try {
        await hook(reason);
      } catch (error) {
        trouble(error);
      }
    });
    if (begun.length === 0) return '';
    const all = Promise.all(begun);
    if (limitMs === undefined) await all;
    else {
      await new Promise<void>((resolve) => {
        const cancel = this.#timer.after(limitMs, resolve);
        void all.then(() => {
          cancel();
          resolve();
        });
      });
    }
    return troubles;
  }

  #letGo(): void {
    this.#onDuty = false;
    for (const [signal, handler] of this.#signalHandlers) process.off(signal, handler);
    process.off('SIGTSTP', this.#stop);
    process.off('SIGCONT', this.#wake);
    process.off('uncaughtException', this.#crash);
    process.off('unhandledRejection', this.#crash);
    process.off('exit', this.#restore);
    this.#wakeCancel?.();
  }
}

function closeQuietly(fd: number): void {
  try {
    closeSync(fd);
  } catch {
    // Closed already.
  }
}
