import { readFileSync } from 'node:fs';
import { spawn } from '@lydell/node-pty';
import { Screen, type ScreenCell } from '../pty/screen.ts';

/** The grid that everything is measured with: line 1333 of the published set random-minimal-2000. */
export const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';

const columns = 80;
const rows = 24;

export const median = (values: readonly number[]): number => at(values, 0.5);

/** The value below which this share of the values lies. */
export function at(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]!;
}

/** One run of a program in a pseudo-terminal. */
export class Run {
  readonly #pty: ReturnType<typeof spawn>;
  readonly screen = new Screen(columns, rows);
  readonly #started = performance.now();
  readonly ended: Promise<number>;
  #output = '';
  #chunks = 0;
  #lastAt = 0;
  #hear = () => {};

  constructor(argv: readonly string[], home: string) {
    this.#pty = spawn(process.execPath, [...argv], {
      cols: columns,
      rows,
      env: {
        PATH: process.env.PATH ?? '',
        HOME: home,
        TERM: 'xterm-256color',
        LANG: 'C.UTF-8',
        COLORTERM: 'truecolor',
        COLORFGBG: '15;0',
      },
    });
    this.#pty.onData((data) => {
      this.#output += data;
      this.#chunks++;
      this.#lastAt = performance.now();
      void this.screen.write(data).then(() => this.#hear());
    });
    this.ended = new Promise((resolve) => {
      this.#pty.onExit(() => resolve(performance.now() - this.#started));
    });
  }

  get bytes(): number {
    return Buffer.byteLength(this.#output);
  }

  get output(): string {
    return this.#output;
  }

  get chunks(): number {
    return this.#chunks;
  }

  write(keys: string): void {
    this.#pty.write(keys);
  }

  end(): void {
    this.#pty.kill('SIGKILL');
  }

  /** Milliseconds since the start when this first held. Fails after ten seconds. */
  async until(holds: () => boolean): Promise<number> {
    const end = performance.now() + 10_000;
    while (!holds()) {
      if (performance.now() > end) throw new Error(`waited in vain; the screen was\n${this.screen.dump()}`);
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, 1000);
        this.#hear = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
    return this.#lastAt - this.#started;
  }

  /** Settles when nothing has come for so long. */
  quiet(ms: number): Promise<void> {
    return new Promise((resolve) => {
      let timer = setTimeout(resolve, ms);
      this.#hear = () => {
        clearTimeout(timer);
        timer = setTimeout(resolve, ms);
      };
    });
  }

  /** Presses a key alone: milliseconds to the last byte of its answer, and the answer. */
  async press(key: string): Promise<{ readonly ms: number; readonly answer: string }> {
    const from = this.#output.length;
    const start = performance.now();
    this.write(key);
    await this.until(() => this.#output.length > from);
    await this.quiet(20);
    return { ms: this.#lastAt - start, answer: this.#output.slice(from) };
  }

  /** What stands on the screen. */
  async cells(): Promise<ScreenCell[][]> {
    await this.screen.write('');
    return this.screen.visibleCells();
  }

  /** Milliseconds of CPU so far, all threads; undefined where the system does not tell. */
  cpu(): number | undefined {
    try {
      const fields = readFileSync(`/proc/${this.#pty.pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
      return (Number(fields[11]) + Number(fields[12])) * 10;
    } catch {
      return undefined;
    }
  }

  /** Resident memory in MB; undefined where the system does not tell. */
  memory(): number | undefined {
    try {
      const text = readFileSync(`/proc/${this.#pty.pid}/status`, 'utf8');
      return Number(/VmRSS:\s+(\d+)/.exec(text)![1]) / 1024;
    } catch {
      return undefined;
    }
  }
}
