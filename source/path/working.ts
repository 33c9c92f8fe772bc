import {
  type Argument,
  type CheckedArgument,
  check,
  type Fact,
  type OneSolutionToken,
} from '../argument/kernel.ts';
import type { Candidate, Cell, Layout } from '../grid/layout.ts';
import { type Position, Walk } from '../grid/position.ts';
import { Board } from '../techniques/board.ts';
import { claiming } from '../techniques/claiming.ts';
import { type Alignments, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { isSingle } from '../techniques/finding.ts';
import { fullHouse } from '../techniques/full-house.ts';
import { hiddenSingle } from '../techniques/hidden-single.ts';
import { isLine } from '../techniques/meetings.ts';
import { nakedSingle } from '../techniques/naked-single.ts';
import { pointing } from '../techniques/pointing.ts';
import { unnamed } from './minimal.ts';
import { OneFacts } from './one-facts.ts';

/** What a working position needs room for. Handed on from one to the next. */
interface Room {
  readonly board: Board;
  readonly due: OneFacts;
  readonly openIn: Uint8Array;
}

const idleRooms = new WeakMap<Layout, Room[]>();

function roomFor(position: Position): Room {
  const { layout } = position;
  const idle = idleRooms.get(layout)?.pop();
  if (idle) {
    idle.board.stand(position);
    idle.due.begin(idle.board);
    return idle;
  }
  const due = new OneFacts(layout);
  const board = Board.from(position, due);
  due.begin(board);
  return { board, due, openIn: new Uint8Array(layout.houses.length) };
}

/**
 * A position that a path goes on from: the board that searches read, the walk that the kernel reads, and
 * what has been concluded so far. Both change together, and only by what the kernel accepts.
 */
export class Working {
  readonly layout: Layout;
  readonly board: Board;
  readonly alignments: Alignments;
  /** Every argument taken so far, each checked in the position that those before it leave. */
  readonly steps: CheckedArgument[] = [];
  readonly #walk: Walk;
  readonly #room: Room;
  readonly #due: OneFacts;
  readonly #openIn: Uint8Array;
  #open = 0;
  /** What the kernel is asked of a placement, written anew for each: it keeps a copy. */
  readonly #asked = {
    technique: '',
    facts: [0],
    conclusions: { kind: 'placements' as const, candidates: [0] },
    assumes: 'nothing' as const,
  };

  constructor(position: Position) {
    this.layout = position.layout;
    const { cellCount } = this.layout;
    this.#room = roomFor(position);
    const { board, due, openIn } = this.#room;
    this.board = board;
    this.#due = due;
    this.#openIn = openIn;
    this.#walk = new Walk(position);
    openIn.fill(this.layout.size);
    this.#open = cellCount;
    for (let cell = 0; cell < cellCount; cell += 1) if (board.placed[cell] !== 0) this.#fill(cell);
    this.alignments = searchTablesOf(this.layout).alignments;
  }

  /** Hands the board on to the next one. The steps and the positions stay; nothing may be taken after it. */
  leave(): void {
    const idle = idleRooms.get(this.layout) ?? [];
    idle.push(this.#room);
    idleRooms.set(this.layout, idle);
  }

  get position(): Position {
    return this.#walk.position;
  }

  /** Whether every cell has its digit and no fact is without a place. */
  get isSolved(): boolean {
    return this.#open === 0 && !this.isBroken;
  }

  /** Whether some fact has no place left. */
  get isBroken(): boolean {
    return this.#due.isBroken;
  }

  /** Asks the kernel and, if it agrees, does what the argument says. Null: it does not. */
  take(argument: Argument, token?: OneSolutionToken): CheckedArgument | null {
    const verdict = check(this.#walk.position, argument, token);
    if (verdict.verdict !== 'holds') return null;
    const { checked } = verdict;
    const { conclusions } = checked.argument;
    if (conclusions.kind === 'breaks') return null;
    const { candidates } = conclusions;
    if (conclusions.kind === 'strikes') {
      for (let i = 0; i < candidates.length; i += 1) this.board.strike(candidates[i]);
      this.#walk.strike(candidates);
    } else for (let i = 0; i < candidates.length; i += 1) this.#place(candidates[i]);
    this.steps.push(checked);
    return checked;
  }

  #place(candidate: Candidate): void {
    const { size, cellAt } = this.layout;
    const cell = cellAt[candidate];
    this.board.place(candidate);
    this.#walk.place(cell, candidate - cell * size + 1);
    this.#fill(cell);
  }

  /** A cell is open no more. */
  #fill(cell: Cell): void {
    const houses = this.layout.housesOf[cell];
    this.#open -= 1;
    for (let i = 0; i < houses.length; i += 1) this.#openIn[houses[i]] -= 1;
  }

  /**
   * Takes everything that single facts support and what that leads to: placements as long as there are any,
   * those in boxes first, then those in lines, then those of cells; one strike of locked candidates at a
   * time between them. `enough` ends it early.
   */
  followOne(enough: () => boolean = () => false): void {
    const due = this.#due;
    while (!due.isBroken && !enough()) {
      const fact = due.takeSingle();
      if (fact >= 0) this.#placeBy(fact);
      else if (!this.#strikeByOne()) return;
    }
  }

  #placeBy(single: Fact): void {
    const { cellCount, size, housesOf, cellAt } = this.layout;
    const { masks, placed, tables } = this.board;
    const candidate = tables.candidateAt[single * size + 31 - Math.clz32(masks[single])];
    const cell = cellAt[candidate];
    if (placed[cell] !== 0) return;
    const houses = housesOf[cell];
    let fact = single;
    let technique = single < cellCount ? nakedSingle.id : hiddenSingle.id;
    for (let i = 0; i < houses.length; i += 1) {
      if (this.#openIn[houses[i]] !== 1) continue;
      fact = cellCount + houses[i] * size + (candidate - cell * size);
      technique = fullHouse.id;
    }
    const asked = this.#asked;
    asked.technique = technique;
    asked.facts[0] = fact;
    asked.conclusions.candidates[0] = candidate;
    this.#must(asked);
  }

  /** Looks at house facts until one strikes something. */
  #strikeByOne(): boolean {
    const { cellCount, size } = this.layout;
    const { masks, live } = this.board;
    const due = this.#due;
    for (let fact = due.takeLockable(-1); fact >= 0; fact = due.takeLockable(fact)) {
      const mask = masks[fact];
      if (isSingle(mask)) continue;
      const house = Math.floor((fact - cellCount) / size);
      const digit = (fact - cellCount) % size;
      const number = this.alignments.of(house, mask);
      if (number === 0) continue;
      const candidates: Candidate[] = [];
      for (const cell of this.alignments.cells[number]) {
        if (live[cell * size + digit] !== 0) candidates.push(cell * size + digit);
      }
      if (candidates.length === 0) continue;
      const technique = this.#nameOfLocked(house, fact, candidates);
      this.#must({
        technique,
        facts: [fact],
        conclusions: { kind: 'strikes', candidates },
        assumes: 'nothing',
      });
      return true;
    }
    return false;
  }

  /** Pointing or claiming where one other house has all the places and all that is struck. */
  #nameOfLocked(house: number, fact: Fact, struck: readonly Candidate[]): string {
    const { housesOf, cellAt, houses } = this.layout;
    const { masks } = this.board;
    for (const other of housesOf[cellAt[struck[0]]]) {
      if (other === house || !struck.every((candidate) => housesOf[cellAt[candidate]].includes(other)))
        continue;
      const isShared = (cell: Cell, bit: number) =>
        (masks[fact] & (1 << bit)) === 0 || housesOf[cell].includes(other);
      if (!houses[house].cells.every(isShared)) continue;
      return isLine(houses[house]) ? claiming.id : pointing.id;
    }
    return unnamed;
  }

  #must(argument: Argument): void {
    if (!this.take(argument)) throw new Error(`the kernel refuses ${JSON.stringify(argument)}`);
  }
}
