/** What a reader answers: a value, or an error as a value. Nothing in the project throws for bad input. */
export type Result<T, E> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: E };

/** Wraps a value that was read or made without trouble. */
export const success = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });

/** Wraps the reason why there is no value. */
export const failure = <E>(error: E): { readonly ok: false; readonly error: E } => ({ ok: false, error });

/**
 * An error with a place in a text. `line` and `column` count from 1; `column` counts code points.
 * `code` is stable and may be relied on by scripts; `message` is a sentence for people, safe to show.
 */
export interface LocatedError {
  readonly code: string;
  readonly line: number;
  readonly column: number;
  /** What stands there, already made safe to show. */
  readonly found: string;
  /** What could have stood there. */
  readonly expected: string;
  readonly message: string;
}
