import type { ActionName } from './actions.ts';
import type { App } from './app-state.ts';
import type { Asking } from './engine.ts';
import type { TerminalSize } from './layout-sizes.ts';
import type { SavingProgress } from './saving.ts';
import type { News } from './services.ts';
import type { Turn, Turning } from './table.ts';

/** What can happen to the workbench. */
export type Message =
  | { readonly kind: 'key'; readonly chord: string }
  | { readonly kind: 'paste'; readonly text: string; readonly truncated: boolean }
  /** The left button of the mouse went down on a character of the screen, counted from 0 at the top left. */
  | { readonly kind: 'click'; readonly x: number; readonly y: number }
  | { readonly kind: 'resize'; readonly size: TerminalSize }
  | { readonly kind: 'typed'; readonly text: string }
  | { readonly kind: 'submit'; readonly text: string }
  /** An action by its name, whatever its key. */
  | { readonly kind: 'do'; readonly name: ActionName }
  /** Saving has come further, or something has come in its way. */
  | ({ readonly kind: 'saving' } & SavingProgress)
  /** Another sheet lies on the table, or why none does. */
  | { readonly kind: 'turned'; readonly to: Turning['to']; readonly turn: Turn }
  /** Answers to effects. */
  | News
  | { readonly kind: 'copied'; readonly what: 'grid' | 'candidates'; readonly problem: string | null };

/** What the workbench wants done; `update` itself does nothing but compute. */
export type Effect =
  | Asking
  | Turning
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
