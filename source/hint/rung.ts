import type { Candidate, Cell } from '../grid/layout.ts';
import type { Broken, Step, Written } from '../path/step.ts';

/** The ladder, from least to most revealing. */
export const rungs = ['where', 'digits', 'pattern', 'cells', 'why'] as const;
export type Rung = (typeof rungs)[number];

/**
 * What a drawn candidate is for. Letters tell facts apart: A, B, C in the order of the argument. Where an
 * arrangement is drawn, `fact` is the place that a fact has in it, `fact-not-chosen` the fact's other places.
 */
export type DrawnRole = 'fact' | 'fact-not-chosen' | 'strike' | 'out-already' | 'placement' | 'overlooked';

export interface DrawnCandidate {
  readonly candidate: Candidate;
  readonly role: DrawnRole;
  /** With `fact` and `fact-not-chosen`, and with `overlooked` where a fact chose it: the fact's letter. */
  readonly letter?: string;
}

/** What the screen, the pictures and the lessons draw over a grid. Colours and signs are theirs to choose. */
export interface Drawing {
  /** House to tint, by index in the layout, or null. */
  readonly house: number | null;
  /** Houses of the facts, by index, each with its letter: their labels may be marked. */
  readonly houses: readonly { readonly house: number; readonly letter: string }[];
  /** Cells of the facts, ascending. */
  readonly cells: readonly Cell[];
  readonly candidates: readonly DrawnCandidate[];
}

/** One line of the ladder's words: what hangs before it (a letter or a sign), and a sentence. */
export interface HintLine {
  /** `A`, `B`.. for a fact, `×` strike, `/` already out, `=` placement, `*` overlooked, `!` broken, or empty. */
  readonly sign: string;
  readonly text: string;
}

/** One rung of a ladder: exactly what may be known on it, and nothing beyond. */
export interface HintRung {
  readonly rung: Rung;
  readonly lines: readonly HintLine[];
  readonly drawing: Drawing;
  /** The JSON of the command contract: `{schema, rung, house}` / `+digits, weight` / and so on. */
  readonly json: Readonly<Record<string, unknown>>;
}

/** What a ladder tells, as plain data. `broken`: it tells of something on the sheet that cannot be right. */
export interface ToldLadder {
  readonly kind: 'step' | 'broken';
  /** One a rung, in the order of `rungs`. */
  readonly rungs: readonly HintRung[];
  /** What taking the step writes on the sheet; null where there is nothing to take. */
  readonly written: Written | null;
}

/** A whole ladder, with what it is built from. */
export interface Ladder extends ToldLadder {
  /** What the ladder tells of. Nothing of it may be shown but through the rungs. */
  readonly step: Step | Broken;
}
