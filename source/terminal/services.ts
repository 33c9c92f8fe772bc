import type { ArgueAnswer } from '../hint/argue-words.ts';
import type { Ladder } from '../hint/rung.ts';
import type { View } from '../path/step.ts';
import type { Standing } from '../sheet/look-over.ts';
import type { SheetState } from '../sheet/state.ts';
import type { LocatedError, Result } from '../text/result.ts';
import type { Answer, Question } from './series.ts';

/**
 * What the workbench asks of the engine and of the machine. It knows no other way to either, so that tests
 * and a later worker can stand in for them.
 */
export interface Services {
  /** The ladder for the sheet as it stands; null where no step is known. */
  readonly findHint: (view: View) => Ladder | null;
  /** What a typed argument comes to on the sheet, or where it can't be read. */
  readonly argue: (view: View, text: string) => Result<ArgueAnswer, LocatedError>;
  /** The instances of a technique by its id, or the way to a cell's digit or a candidate, as it was typed. */
  readonly ask: (view: View, about: Question, text: string) => Answer;
  /** Whether the sheet can still be completed. */
  readonly isRight: (state: SheetState) => Standing;
  /** Hands text to the clipboard; answers why not, in a sentence, or null where it went well. */
  readonly copy: (text: string) => string | null;
}
