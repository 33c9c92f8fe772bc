import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The program as it is built; `npm test` builds it first. */
export const program = fileURLToPath(new URL('../../dist/main.js', import.meta.url));
if (!existsSync(program)) throw new Error(`there is no ${program}: run 'npm run build' first`);

/** Where sheets are kept for these runs, unless a run is told another place: never in the home of whoever runs them. */
const state = mkdtempSync(join(tmpdir(), 'inkling-state-'));
process.on('exit', () => rmSync(state, { recursive: true, force: true }));

export interface Outcome {
  readonly code: number | null;
  readonly signal: string | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface RunOptions {
  /** What is written to stdin before it is closed. Default: nothing. */
  readonly input?: string | Uint8Array;
  readonly environment?: Readonly<Record<string, string>>;
  readonly folder?: string;
}

/** Starts the program with piped streams and no variable of the surroundings but the path and those given. */
export function startInkling(
  args: readonly string[],
  options: RunOptions = {},
): ChildProcessWithoutNullStreams {
  return spawn(process.execPath, [program, ...args], {
    cwd: options.folder,
    env: { PATH: process.env.PATH ?? '', LANG: 'C.UTF-8', XDG_STATE_HOME: state, ...options.environment },
  });
}

/** Runs the program to its end. */
export function inkling(args: readonly string[], options: RunOptions = {}): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const child = startInkling(args, options);
    let stdout = '';
    let stderr = '';
    child.stdout.setEncoding('utf8').on('data', (piece: string) => {
      stdout += piece;
    });
    child.stderr.setEncoding('utf8').on('data', (piece: string) => {
      stderr += piece;
    });
    // A program that ends without reading its input closes the pipe: that is its right.
    child.stdin.on('error', () => {});
    child.on('error', reject);
    child.on('close', (code, signal) => resolve({ code, signal, stdout, stderr }));
    child.stdin.end(options.input ?? '');
  });
}

/** Lines of output, without the empty text behind the last line end. */
export const linesOf = (text: string): string[] => (text === '' ? [] : text.replace(/\n$/, '').split('\n'));

/** Each line of output as JSON. */
export const jsonLines = <T>(text: string): T[] => linesOf(text).map((line) => JSON.parse(line) as T);
