import type { Candidate, DigitMask } from '../grid/layout.ts';
import { Board } from '../techniques/board.ts';
import type { Finding, Technique } from '../techniques/technique.ts';

/**
 * Searches for patterns along a path: where nothing was found, only what has changed since is looked at again, by
 * digit for patterns of one digit.
 */
export class PatternPursuit {
  readonly #board: Board;
  /** Shows what is looked at. */
  readonly #view: Board;
  readonly #shown: Candidate[] = [];
  /** For each technique what was live when nothing was found. */
  readonly #before = new Map<Technique, Uint8Array>();

  constructor(board: Board) {
    this.#board = board;
    this.#view = Board.bare(board.layout);
  }

  /** Instances that were not there when `nothingBy` was last told of the technique; perhaps others too. */
  find(technique: Technique): readonly Finding[] {
    const before = this.#before.get(technique);
    const { live, layout } = this.#board;
    if (!before || technique.assumes !== 'nothing') return technique.find(this.#board);
    let digits = 0;
    for (let candidate = 0; candidate < live.length; candidate += 1) {
      if (live[candidate] !== before[candidate]) digits |= 1 << (candidate % layout.size);
    }
    if (digits === 0) return [];
    if (technique.about !== 'one-digit') return technique.find(this.#board);
    this.#show(digits);
    const findings = technique.find(this.#view);
    for (const candidate of this.#shown) this.#view.strike(candidate);
    return findings;
  }

  /** Says that no instance of a technique is of use in the position that the board stands in. */
  nothingBy(technique: Technique): void {
    const before = this.#before.get(technique);
    if (before) before.set(this.#board.live);
    else this.#before.set(technique, this.#board.live.slice());
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
