import type { Asking, Heard } from './engine.ts';
import type { SheetKeeper } from './saving.ts';
import type { Table } from './table.ts';

/** What becomes of a question: its answer, once; before that, that it takes long; or why there is none. */
export type News = Heard | { readonly kind: 'slow' } | { readonly kind: 'unanswered'; readonly why: string };

/**
 * What the workbench asks of the machine. It knows no other way to the engine, or out, so that tests can stand
 * in for both.
 */
export interface Services {
  /** Has a question thought about, now or elsewhere. `hear` is not called any more after `stop`. */
  readonly think: (asking: Asking, hear: (news: News) => void) => void;
  /** Ends what is being thought about. */
  readonly stop: () => void;
  /** Hands text to the clipboard; answers why not, in a sentence, or null where it went well. */
  readonly copy: (text: string) => string | null;
  /** Keeps the sheet; absent where nothing is kept. */
  readonly keeper?: SheetKeeper;
  /** Puts one sheet in another's place; absent: sheets are there for as long as the workbench is. */
  readonly table?: Table;
  /** Calls back after so many milliseconds, unless cancelled; absent: nothing is ever put off. */
  readonly later?: (milliseconds: number, call: () => void) => () => void;
}
