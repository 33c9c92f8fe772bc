import type { Candidate, DigitMask } from '../grid/layout.ts';
import { Board } from '../techniques/board.ts';
import { bitCount } from '../techniques/finding.ts';
import type { Finding, Technique } from '../techniques/technique.ts';

/**
 * Searches for patterns along a path: where nothing was found, only what has shrunk since is looked at again. An
 * instance that was not there has a fact that has; those of one digit are looked for by digit.
 */
export class PatternPursuit {
  readonly #board: Board;
  /** Shows what is looked at. */
  readonly #view: Board;
  readonly #shown: Candidate[] = [];
  /** The facts as they were when they were last looked at, and in which look each had last shrunk. */
  readonly #masks: Uint32Array;
  readonly #shrunkIn: Int32Array;
  #look = 0;
  /** For each technique the look in which nothing was found. */
  readonly #nothingIn = new Map<Technique, number>();

  constructor(board: Board) {
    this.#board = board;
    this.#view = Board.bare(board.layout);
    this.#masks = board.masks.slice();
    this.#shrunkIn = new Int32Array(board.masks.length);
  }

  /** Takes over the position that the board stands in now. Due before patterns are looked for in it. */
  load(): void {
    const { masks } = this.#board;
    this.#look += 1;
    for (let fact = 0; fact < masks.length; fact += 1) {
      if (masks[fact] === this.#masks[fact]) continue;
      this.#masks[fact] = masks[fact];
      this.#shrunkIn[fact] = this.#look;
    }
  }

  /** Instances that were not there when `nothingBy` was last told of the technique; perhaps others too. */
  find(technique: Technique): readonly Finding[] {
    const before = this.#nothingIn.get(technique);
    if (before === undefined || technique.assumes !== 'nothing') return technique.find(this.#board);
    const digits = this.#digitsOfShrunk(technique, before);
    if (digits === 0) return [];
    if (technique.about !== 'one-digit') return technique.find(this.#board);
    this.#show(digits);
    const findings = technique.find(this.#view);
    for (const candidate of this.#shown) this.#view.strike(candidate);
    return findings;
  }

  /** Says that no instance of a technique is of use in the position that the board stands in. */
  nothingBy(technique: Technique): void {
    this.#nothingIn.set(technique, this.#look);
  }

  /** The digits of the facts that have shrunk since a look and may now be facts of an instance. */
  #digitsOfShrunk({ about, mostPlaces }: Technique, since: number): DigitMask {
    const { size, cellCount } = this.#board.layout;
    const masks = this.#masks;
    const from = about === 'digits' || about === 'one-digit' ? cellCount : 0;
    const to = about === 'cells' ? cellCount : masks.length;
    let digits = 0;
    for (let fact = from; fact < to; fact += 1) {
      if (this.#shrunkIn[fact] <= since) continue;
      const rest = masks[fact] & (masks[fact] - 1);
      if (rest === 0 || (mostPlaces !== undefined && bitCount(rest) >= mostPlaces)) continue;
      digits |= fact < cellCount ? masks[fact] : 1 << ((fact - cellCount) % size);
    }
    return digits;
  }

  /** Puts all live candidates of some digits into the view. */
  #show(digits: DigitMask): void {
    const { live, layout } = this.#board;
    this.#shown.length = 0;
    for (let candidate = 0; candidate < live.length; candidate += 1) {
      if (live[candidate] === 0 || (digits & (1 << (candidate % layout.size))) === 0) continue;
      this.#view.revive(candidate);
      this.#shown.push(candidate);
    }
  }
}
