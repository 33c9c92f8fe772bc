import type { Fact } from '../argument/kernel.ts';
import type { CandidateSet } from '../grid/candidates.ts';
import type { Candidate, Cell, Digit, DigitMask, Layout } from '../grid/layout.ts';
import type { WrittenLayout } from '../grid/layout-text.ts';

/**
 * The letters of free tags, as they are kept and shown: unlike those of facts (`A`, `B`, ..) and unlike any
 * digit. Two pairs: two letters for one colouring, two for another.
 */
export const tagLetters = ['m', 't', 'v', 'y'] as const;
export type TagLetter = (typeof tagLetters)[number];

/**
 * What is written on a sheet. Immutable. Marks are kept as they were made by hand; a mark whose candidate a
 * placed digit or a strike excludes is merely not shown and not counted, so taking the digit back brings the
 * mark back.
 */
export interface SheetState {
  readonly layout: Layout;
  /** Shown as the sheet's title; safe to show only after the text boundary. */
  readonly name: string;
  /** One digit a cell; 0 where the puzzle leaves it open. */
  readonly givens: readonly Digit[];
  /** One digit a cell, written by the person; 0 elsewhere. Never set where there is a given. */
  readonly ink: readonly Digit[];
  /** Candidates ruled out with the strike pen or by taking a step. */
  readonly strikes: CandidateSet;
  /** One mask a cell: what its note lists. 0: no note. */
  readonly notes: readonly DigitMask[];
  /** For each house fact with spot marks: the marked cells, ascending. */
  readonly spots: ReadonlyMap<Fact, readonly Cell[]>;
  /**
   * Facts that the marks claim, in the order in which they were last written. A fact with marks that is not
   * in here is pending.
   */
  readonly claimed: ReadonlySet<Fact>;
  /** The fact whose marks are being written just now: not claimed until the person goes on to something else. */
  readonly inHand: Fact | null;
  /** Free letters on candidates, for colouring by hand. */
  readonly tags: ReadonlyMap<Candidate, TagLetter>;
}

/** Every change of a sheet. One event is one undo step. Data only: it can be stored and replayed. */
export type SheetEvent =
  /** Writes a digit into an open cell, in place of what ink it had. */
  | { readonly kind: 'ink'; readonly cell: Cell; readonly digit: Digit }
  /** Several placements as one step, for instance all singles. */
  | { readonly kind: 'ink-all'; readonly candidates: readonly Candidate[] }
  /** Toggles digits in the note of a cell. */
  | { readonly kind: 'note'; readonly cell: Cell; readonly digits: DigitMask }
  /** Replaces the note of a cell; 0 erases it. */
  | { readonly kind: 'set-note'; readonly cell: Cell; readonly digits: DigitMask }
  /** Toggles the mark of a house fact in a cell. */
  | { readonly kind: 'spot'; readonly fact: Fact; readonly cell: Cell }
  /** Replaces the marks of a house fact; none erases it. */
  | { readonly kind: 'set-spots'; readonly fact: Fact; readonly cells: readonly Cell[] }
  /** Toggles strikes: if all are struck they come back, otherwise all are struck. */
  | { readonly kind: 'strike'; readonly candidates: readonly Candidate[] }
  /** Strikes, never brings back: taking a step. */
  | {
      readonly kind: 'take';
      readonly placements: readonly Candidate[];
      readonly strikes: readonly Candidate[];
    }
  /** Erases ink in a cell; where there is none, its note, spots, tags and strikes. */
  | { readonly kind: 'erase'; readonly cell: Cell }
  /** Writes every live candidate into the notes of all open cells that have none. */
  | { readonly kind: 'fill' }
  /** Sets or clears (null) the tag of a candidate. */
  | { readonly kind: 'tag'; readonly candidate: Candidate; readonly tag: TagLetter | null }
  /** Several of these, one after the other, as one step. */
  | { readonly kind: 'several'; readonly events: readonly SheetEvent[] }
  /** Back to the givens alone. */
  | { readonly kind: 'restart' }
  /** Turns the ink into givens: the end of entering a grid by hand. */
  | { readonly kind: 'lock' }
  /**
   * Replaces the whole sheet by another grid, of any layout; `notes` may be empty. Writes nothing where the
   * layout cannot be read or the givens do not fit it.
   */
  | {
      readonly kind: 'open';
      readonly layout: WrittenLayout;
      readonly name: string;
      readonly givens: readonly Digit[];
      readonly notes: readonly DigitMask[];
    };

/** A sheet with its history. `past` and `future` hold the states to go to, nearest last. */
export interface Sheet {
  readonly state: SheetState;
  readonly past: readonly { readonly before: SheetState; readonly event: SheetEvent }[];
  readonly future: readonly { readonly after: SheetState; readonly event: SheetEvent }[];
}

/** Something on the sheet that cannot be completed, seen without the solution. */
export interface Slip {
  readonly kind: 'twice' | 'no-digit' | 'no-place' | 'empty-claim';
  /** The house concerned, by index; null for a cell with nothing left. */
  readonly house: number | null;
  readonly digit: Digit | null;
  /** The cells to flag: both of a clash, the empty cell, the cells of the claim; may be empty for `no-place`. */
  readonly cells: readonly Cell[];
  /** A plain sentence: house, digit and cells named. */
  readonly text: string;
  /** How many undo steps lead to just before the move that brought it in (at least 1); 0 if the givens have it. */
  readonly undoSteps: number;
  /** The move that brought it in, in words such as `r7c4=4`; empty if the givens have it. */
  readonly move: string;
}
