import type { ArgueAnswer } from '../hint/argue-words.ts';
import type { Ladder } from '../hint/rung.ts';
import type { View } from '../path/step.ts';
import type { Standing } from '../sheet/look-over.ts';
import type { SheetState } from '../sheet/state.ts';
import type { LocatedError, Result } from '../text/result.ts';
import type { App } from './app-state.ts';
import type { TerminalSize } from './layout-sizes.ts';
import type { Answer, Question } from './series.ts';

/** What can happen to the workbench. */
export type Message =
  | { readonly kind: 'key'; readonly chord: string }
  | { readonly kind: 'paste'; readonly text: string; readonly truncated: boolean }
  | { readonly kind: 'resize'; readonly size: TerminalSize }
  | { readonly kind: 'typed'; readonly text: string }
  | { readonly kind: 'submit'; readonly text: string }
  /** Answers to effects. */
  | { readonly kind: 'hint-found'; readonly ladder: Ladder | null }
  | { readonly kind: 'no-hint' | 'standing'; readonly standing: Standing }
  | { readonly kind: 'argued'; readonly text: string; readonly answer: Result<ArgueAnswer, LocatedError> }
  | { readonly kind: 'answered'; readonly text: string; readonly answer: Answer }
  | { readonly kind: 'copied'; readonly what: 'grid' | 'candidates'; readonly problem: string | null };

/** What the workbench wants done; `update` itself does nothing but compute. */
export type Effect =
  | { readonly kind: 'find-hint'; readonly view: View }
  | { readonly kind: 'argue'; readonly view: View; readonly text: string }
  | { readonly kind: 'ask'; readonly about: Question; readonly view: View; readonly text: string }
  | { readonly kind: 'is-right' | 'why-no-hint'; readonly state: SheetState }
  | { readonly kind: 'copy'; readonly text: string; readonly what: 'grid' | 'candidates' }
  /** With the exit code. */
  | { readonly kind: 'quit'; readonly code: 0 | 130 }
  | { readonly kind: 'suspend' | 'redraw' };

/** The workbench after something has happened, and what is to be done. */
export interface Update {
  readonly app: App;
  readonly effects: readonly Effect[];
}

/** The workbench as it is now, and what is to be done. */
export const only = (app: App, ...effects: Effect[]): Update => ({ app, effects });
