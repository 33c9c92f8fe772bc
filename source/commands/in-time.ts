import { Script } from 'node:vm';

const place = Symbol.for('inkling.work-in-time');
let script: Script | null = null;

/**
 * Does work for so many seconds at most; null where they were not enough. The work is ended wherever it is then,
 * without its `finally` and `catch`, so what it was changing stays half changed: it may not change what others
 * rely on. What it throws is thrown.
 */
export function withinSeconds<T>(seconds: number, work: () => T): { readonly value: T } | null {
  let done: { readonly value: T } | null = null;
  // Node ends a script that takes too long by a clock of its own, with all that the script calls.
  script ??= new Script(`globalThis[Symbol.for('${place.description}')]()`);
  const outer: unknown = Reflect.get(globalThis, place);
  Reflect.set(globalThis, place, () => {
    done = { value: work() };
  });
  try {
    script.runInThisContext({ timeout: Math.max(1, Math.ceil(seconds * 1000)) });
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'ERR_SCRIPT_EXECUTION_TIMEOUT'))
      throw error;
    return null;
  } finally {
    Reflect.set(globalThis, place, outer);
  }
  return done;
}

/** `within 60 seconds`. */
export const sayWithin = (seconds: number): string =>
  `within ${seconds} ${seconds === 1 ? 'second' : 'seconds'}`;

/** What is said beside an answer that is not complete, since time has run out. */
export const sayOutOfTime = (seconds: number): string =>
  `not finished ${sayWithin(seconds)}; --seconds N allows for more`;

/** For a last look at what is known when time has run out: this part of it. */
export const lastLook = (seconds: number): number => seconds / 4;
