import type { Argument, Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import type { Board } from './board.ts';

/** One instance of a pattern: its facts as the technique defines them, and all that it places or strikes. */
export interface Finding {
  /** The technique's id. */
  readonly technique: string;
  /** In the order in which the technique tells them: bases before covers, pivot before wings. */
  readonly facts: readonly Fact[];
  /** At least one live candidate; ascending. */
  readonly conclusions: {
    readonly kind: 'placements' | 'strikes';
    readonly candidates: readonly Candidate[];
  };
  /** For one-solution techniques: the deadly pattern, two candidates a cell. */
  readonly pattern?: readonly Candidate[];
}

/** What facts are about: cells alone, one digit in houses, several digits in houses, or cells and houses. */
export type FactsAbout = 'cells' | 'one-digit' | 'digits' | 'cells-and-houses';

/** Is told how to ask for what has been found so far. */
export type WatchFindings = (soFar: () => readonly Finding[]) => void;

/** A pattern that people know by name. One file a technique, one line in `catalogue.ts`, nothing else. */
export interface Technique {
  /** Lower case with hyphens, as commands take it: `x-wing`. */
  readonly id: string;
  /** As a sentence starts with it: `X-wing`. */
  readonly name: string;
  /** How many facts its instances have at most, for the order in which the catalogue is tried. */
  readonly weight: number;
  readonly assumes: 'nothing' | 'one-solution';
  /** What the facts of its instances are about, where that is always the same. */
  readonly about?: FactsAbout;
  /** How many places a fact of an instance has at most, where that is less than a house has cells. At least two. */
  readonly mostPlaces?: number;
  /**
   * That it follows candidates to their ends, and so takes far longer than patterns do: nothing to try at
   * each step. Each thing that it strikes it strikes by one set of facts, of several that would do as well;
   * which one is not the same in a grid turned round, what is struck is.
   */
  readonly supposes?: true;
  /**
   * All instances in the position that the board stands in, in a fixed order. Never changes the board.
   * What it finds depends on the position alone and commutes with the grid's symmetries, as a set. `most`: those
   * of more facts are not wanted, and may be left out where that saves time. `watch`, where finding them takes
   * long, is told at the start how to ask for those that there are so far.
   */
  readonly find: (board: Board, most?: number, watch?: WatchFindings) => readonly Finding[];
  /**
   * Why it follows, said as a teacher would, over the facts of one argument: one or two sentences after the
   * facts have been told. Absent or null: the prose is derived from the order in which the cases close.
   */
  readonly phrase?: (position: Position, argument: Argument) => string | null;
}
