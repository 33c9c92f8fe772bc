import { factCount } from '../argument/fact.ts';
import {
  type Argument,
  type CheckedArgument,
  check,
  type Fact,
  type OneSolutionToken,
} from '../argument/kernel.ts';
import type { Candidate, Layout } from '../grid/layout.ts';
import { type Position, Walk } from '../grid/position.ts';
import { Board, ShrunkFacts } from '../techniques/board.ts';
import { claiming } from '../techniques/claiming.ts';
import { type Alignments, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { isSingle } from '../techniques/finding.ts';
import { fullHouse } from '../techniques/full-house.ts';
import { hiddenSingle } from '../techniques/hidden-single.ts';
import { isLine } from '../techniques/meetings.ts';
import { nakedSingle } from '../techniques/naked-single.ts';
import { pointing } from '../techniques/pointing.ts';
import { unnamed } from './minimal.ts';

/** What a working position needs room for. Handed on from one to the next. */
interface Room {
  readonly board: Board;
  readonly shrunk: ShrunkFacts;
  readonly lockable: ShrunkFacts;
  readonly openIn: Uint8Array;
  readonly kinds: Uint8Array;
}

/** In which order facts with one place left are taken: those of regions, of lines, of cells. */
const REGION = 0;
const LINE = 1;
const CELL = 2;

const kindTables = new WeakMap<Layout, Uint8Array>();

/** For each fact of a layout of which kind it is. */
function kindsOf(layout: Layout): Uint8Array {
  let kinds = kindTables.get(layout);
  if (!kinds) {
    const { cellCount, size, houses } = layout;
    kinds = Uint8Array.from({ length: factCount(layout) }, (_, fact) => {
      if (fact < cellCount) return CELL;
      return isLine(houses[Math.floor((fact - cellCount) / size)]) ? LINE : REGION;
    });
    kindTables.set(layout, kinds);
  }
  return kinds;
}

const idleRooms = new WeakMap<Layout, Room[]>();

function roomFor(position: Position): Room {
  const { layout } = position;
  const idle = idleRooms.get(layout)?.pop();
  if (idle) {
    idle.shrunk.clear();
    idle.lockable.clear();
    idle.openIn.fill(0);
    idle.board.stand(position);
    return idle;
  }
  const shrunk = new ShrunkFacts(factCount(layout));
  return {
    board: Board.from(position, shrunk),
    shrunk,
    lockable: new ShrunkFacts(factCount(layout)),
    openIn: new Uint8Array(layout.houses.length),
    kinds: kindsOf(layout),
  };
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
  readonly #shrunk: ShrunkFacts;
  /** Facts down to one place that is not on the grid: of regions, of lines, of cells. */
  readonly #singles: readonly [Fact[], Fact[], Fact[]] = [[], [], []];
  /** House facts with several places that have shrunk since they were last looked at. */
  readonly #lockable: ShrunkFacts;
  readonly #openIn: Uint8Array;
  readonly #kinds: Uint8Array;
  #open = 0;
  #isBroken = false;

  constructor(position: Position) {
    this.layout = position.layout;
    const { cellCount, housesOf } = this.layout;
    this.#room = roomFor(position);
    const { board, shrunk, lockable, openIn, kinds } = this.#room;
    this.board = board;
    this.#shrunk = shrunk;
    this.#lockable = lockable;
    this.#openIn = openIn;
    this.#kinds = kinds;
    this.#walk = new Walk(position);
    for (let cell = 0; cell < cellCount; cell += 1) {
      if (board.placed[cell] !== 0) continue;
      this.#open += 1;
      const houses = housesOf[cell];
      for (let i = 0; i < houses.length; i += 1) openIn[houses[i]] += 1;
    }
    this.alignments = searchTablesOf(this.layout).alignments;
    for (let fact = 0; fact < board.tables.factCount; fact += 1) this.#sort(fact);
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
    this.#sortShrunk();
    return this.#isBroken;
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
    const { size, housesOf } = this.layout;
    const cell = (candidate / size) | 0;
    this.board.place(candidate);
    this.#walk.place(cell, candidate - cell * size + 1);
    this.#open -= 1;
    const houses = housesOf[cell];
    for (let i = 0; i < houses.length; i += 1) this.#openIn[houses[i]] -= 1;
  }

  /**
   * Takes everything that single facts support and what that leads to: placements as long as there are any,
   * those in boxes first, then those in lines, then those of cells; one strike of locked candidates at a
   * time between them. `enough` ends it early.
   */
  followOne(enough: () => boolean = () => false): void {
    const [regions, lines, cells] = this.#singles;
    while (!this.isBroken && !enough()) {
      const fact = regions.pop() ?? lines.pop() ?? cells.pop();
      if (fact !== undefined) this.#placeBy(fact);
      else if (!this.#strikeByOne()) return;
    }
  }

  #sortShrunk(): void {
    for (let fact = this.#shrunk.take(); fact >= 0; fact = this.#shrunk.take()) this.#sort(fact);
  }

  #sort(fact: Fact): void {
    const { masks, placed, tables } = this.board;
    const mask = masks[fact];
    const kind = this.#kinds[fact];
    if ((mask & (mask - 1)) !== 0) {
      if (kind !== CELL) this.#lockable.add(fact);
    } else if (mask === 0) this.#isBroken = true;
    else {
      const { size } = tables.layout;
      const candidate = tables.candidateAt[fact * size + 31 - Math.clz32(mask)];
      if (placed[(candidate / size) | 0] === 0) this.#singles[kind].push(fact);
    }
  }

  #placeBy(single: Fact): void {
    const { cellCount, size, housesOf } = this.layout;
    const { masks, placed, tables } = this.board;
    const candidate = tables.candidateAt[single * size + 31 - Math.clz32(masks[single])];
    const cell = (candidate / size) | 0;
    if (placed[cell] !== 0) return;
    const houses = housesOf[cell];
    let fact = single;
    let technique = single < cellCount ? nakedSingle.id : hiddenSingle.id;
    for (let i = 0; i < houses.length; i += 1) {
      if (this.#openIn[houses[i]] !== 1) continue;
      fact = cellCount + houses[i] * size + (candidate - cell * size);
      technique = fullHouse.id;
    }
    this.#must({
      technique,
      facts: [fact],
      conclusions: { kind: 'placements', candidates: [candidate] },
      assumes: 'nothing',
    });
  }

  /** Looks at house facts until one strikes something. */
  #strikeByOne(): boolean {
    const { cellCount, size } = this.layout;
    const { masks, live } = this.board;
    for (let fact = this.#lockable.take(); fact >= 0; fact = this.#lockable.take()) {
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
    const { size, housesOf } = this.layout;
    const cells = [...this.board.placesOf(fact), ...struck].map((candidate) => Math.floor(candidate / size));
    const shared = housesOf[cells[0]].some(
      (other) => other !== house && cells.every((cell) => housesOf[cell].includes(other)),
    );
    if (!shared) return unnamed;
    return this.#kinds[fact] === LINE ? claiming.id : pointing.id;
  }

  #must(argument: Argument): void {
    if (!this.take(argument)) throw new Error(`the kernel refuses ${JSON.stringify(argument)}`);
  }
}
