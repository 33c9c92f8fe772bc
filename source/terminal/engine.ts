import type { ArgueAnswer } from '../hint/argue-words.ts';
import type { ToldLadder } from '../hint/rung.ts';
import type { View } from '../path/step.ts';
import type { Standing } from '../sheet/look-over.ts';
import type { SheetState } from '../sheet/state.ts';
import type { LocatedError, Result } from '../text/result.ts';
import type { Answer, Question } from './series.ts';

/** What the workbench asks of the engine. */
export type Asking =
  | { readonly kind: 'find-hint'; readonly view: View }
  | { readonly kind: 'argue'; readonly view: View; readonly text: string }
  | { readonly kind: 'ask'; readonly about: Question; readonly view: View; readonly text: string }
  /** `how-many-solutions`: of the givens, on a sheet that has nothing else. */
  | { readonly kind: 'is-right' | 'why-no-hint' | 'how-many-solutions'; readonly state: SheetState };

/** The engine's answers. */
export type Heard =
  | { readonly kind: 'hint-found'; readonly ladder: ToldLadder | null }
  | { readonly kind: 'no-hint' | 'standing' | 'solutions'; readonly standing: Standing }
  | { readonly kind: 'argued'; readonly text: string; readonly answer: Result<ArgueAnswer, LocatedError> }
  | { readonly kind: 'answered'; readonly text: string; readonly answer: Answer };

/** Answers at once, however long it takes. */
export interface Engine {
  /** The ladder for the sheet as it stands; null where no step is known. */
  readonly findHint: (view: View) => ToldLadder | null;
  /** What a typed argument comes to on the sheet, or where it can't be read. */
  readonly argue: (view: View, text: string) => Result<ArgueAnswer, LocatedError>;
  /** The instances of a technique by its id, or the way to a cell's digit or a candidate, as it was typed. */
  readonly ask: (view: View, about: Question, text: string) => Answer;
  /** Whether the sheet can still be completed. */
  readonly isRight: (state: SheetState) => Standing;
}

/** The engine's answer to a question. */
export function answerOf(engine: Engine, asking: Asking): Heard {
  switch (asking.kind) {
    case 'find-hint':
      return { kind: 'hint-found', ladder: engine.findHint(asking.view) };
    case 'argue':
      return { kind: 'argued', text: asking.text, answer: engine.argue(asking.view, asking.text) };
    case 'ask': {
      const { about, view, text } = asking;
      return { kind: 'answered', text: `${about} ${text}`, answer: engine.ask(view, about, text) };
    }
    case 'is-right':
      return { kind: 'standing', standing: engine.isRight(asking.state) };
    case 'why-no-hint':
      return { kind: 'no-hint', standing: engine.isRight(asking.state) };
    case 'how-many-solutions':
      return { kind: 'solutions', standing: engine.isRight(asking.state) };
  }
}
