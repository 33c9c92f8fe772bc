import { factCount, factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { CandidateSet } from '../grid/candidates.ts';
import { type Candidate, type Cell, cellOf, type Digit, digitOf, type Layout } from '../grid/layout.ts';
import { readWritten } from '../grid/layout-text.ts';
import { liveNote, placedAt, positionOf } from './marks.ts';
import { type SheetEvent, type SheetState, type TagLetter, tagLetters } from './state.ts';

const isCell = (layout: Layout, cell: Cell) => Number.isInteger(cell) && cell >= 0 && cell < layout.cellCount;
const isDigit = (layout: Layout, digit: Digit) =>
  Number.isInteger(digit) && digit >= 1 && digit <= layout.size;
const isCandidate = (layout: Layout, candidate: Candidate) =>
  Number.isInteger(candidate) && candidate >= 0 && candidate < layout.cellCount * layout.size;
const isHouseFact = (layout: Layout, fact: Fact) =>
  Number.isInteger(fact) && fact >= layout.cellCount && fact < factCount(layout);

const changedAt = <T>(values: readonly T[], index: number, value: T): readonly T[] =>
  values[index] === value ? values : values.map((old, i) => (i === index ? value : old));

const sameValues = <T>(a: readonly T[], b: readonly T[]): boolean =>
  a.length === b.length && a.every((value, i) => value === b[i]);

/** Candidates of open cells that the position still has: what can be struck, marked and tagged. */
const isLive = (state: SheetState, candidate: Candidate): boolean =>
  isCandidate(state.layout, candidate) &&
  placedAt(state, cellOf(state.layout, candidate)) === 0 &&
  positionOf(state).candidates.has(candidate);

function place(state: SheetState, candidates: readonly Candidate[]): SheetState {
  const { layout } = state;
  const ink = [...state.ink];
  for (const candidate of candidates) {
    if (!isCandidate(layout, candidate)) continue;
    const cell = cellOf(layout, candidate);
    if (state.givens[cell] === 0) ink[cell] = digitOf(layout, candidate);
  }
  return sameValues(ink, state.ink) ? state : { ...state, ink };
}

function note(state: SheetState, cell: Cell, digits: number): SheetState {
  const notes = changedAt(state.notes, cell, digits);
  return notes === state.notes ? state : { ...state, notes };
}

function spot(state: SheetState, fact: Fact, cells: readonly Cell[]): SheetState {
  const old = state.spots.get(fact) ?? [];
  if (sameValues(old, cells)) return state;
  const spots = new Map(state.spots);
  if (cells.length === 0) spots.delete(fact);
  else spots.set(fact, cells);
  return { ...state, spots };
}

function strike(state: SheetState, candidates: readonly Candidate[]): SheetState {
  const live = candidates.filter((candidate) => isLive(state, candidate));
  if (live.length === 0) return state;
  return { ...state, strikes: state.strikes.union(CandidateSet.of(state.layout, live)) };
}

function toggleStrikes(state: SheetState, candidates: readonly Candidate[]): SheetState {
  if (candidates.some((candidate) => isLive(state, candidate))) return strike(state, candidates);
  const struck = candidates.filter((c) => isCandidate(state.layout, c) && state.strikes.has(c));
  if (struck.length === 0) return state;
  return { ...state, strikes: state.strikes.without(CandidateSet.of(state.layout, struck)) };
}

function tag(state: SheetState, candidate: Candidate, letter: TagLetter | null): SheetState {
  if ((state.tags.get(candidate) ?? null) === letter) return state;
  const tags = new Map(state.tags);
  if (letter === null) tags.delete(candidate);
  else if (!tagLetters.includes(letter) || !isLive(state, candidate)) return state;
  else tags.set(candidate, letter);
  return { ...state, tags };
}

function erase(state: SheetState, cell: Cell): SheetState {
  const { layout } = state;
  if (!isCell(layout, cell) || state.givens[cell] !== 0) return state;
  if (state.ink[cell] !== 0) return { ...state, ink: changedAt(state.ink, cell, 0) };
  let erased = note(state, cell, 0);
  for (const [fact, cells] of state.spots) {
    const rest = cells.filter((other) => other !== cell);
    erased = spot(erased, fact, rest);
  }
  const tags = [...state.tags].filter(([candidate]) => cellOf(layout, candidate) !== cell);
  if (tags.length < state.tags.size) erased = { ...erased, tags: new Map(tags) };
  const struck = [...state.strikes].filter((candidate) => cellOf(layout, candidate) === cell);
  if (struck.length > 0) {
    erased = { ...erased, strikes: state.strikes.without(CandidateSet.of(layout, struck)) };
  }
  return erased;
}

/** Every digit into each note: what digits and strikes exclude is not shown, and comes back when they go. */
function fill(state: SheetState): SheetState {
  const notes = state.notes.map((digits, cell) => {
    const isKept = placedAt(state, cell) !== 0 || liveNote(state, cell) !== 0 || state.claimed.has(cell);
    return isKept ? digits : state.layout.allDigits;
  });
  return sameValues(notes, state.notes) ? state : { ...state, notes };
}

function restart(state: SheetState): SheetState {
  const { layout } = state;
  const blank = state.givens.map(() => 0);
  const ink = sameValues(state.ink, blank) ? state.ink : blank;
  const notes = sameValues(state.notes, blank) ? state.notes : blank;
  const unchanged = ink === state.ink && notes === state.notes && state.strikes.isEmpty;
  if (unchanged && state.spots.size === 0 && state.tags.size === 0) return state;
  return { ...state, ink, notes, strikes: CandidateSet.empty(layout), spots: new Map(), tags: new Map() };
}

function open(state: SheetState, event: Extract<SheetEvent, { kind: 'open' }>): SheetState {
  const { name, givens } = event;
  const layout = readWritten(event.layout, state.layout);
  const fits =
    layout !== null &&
    givens.length === layout.cellCount &&
    givens.every((d) => d === 0 || isDigit(layout, d));
  if (!fits) return state;
  const notes = givens.map((digit, cell) => (digit === 0 ? (event.notes[cell] ?? 0) & layout.allDigits : 0));
  if (layout !== state.layout) {
    const blank = { ...state, layout, ink: givens.map(() => 0), strikes: CandidateSet.empty(layout) };
    return { ...blank, name, givens, notes, spots: new Map(), tags: new Map() };
  }
  const bare = restart({ ...state, name, givens, notes: givens.map(() => 0) });
  const opened = { ...bare, notes };
  const same = name === state.name && sameValues(givens, state.givens) && sameValues(notes, state.notes);
  const nothingElse = state.ink.every((digit) => digit === 0) && state.strikes.isEmpty;
  return same && nothingElse && state.spots.size === 0 && state.tags.size === 0 ? state : opened;
}

/**
 * What an event writes, claims aside: the same state where it writes nothing. Nothing is ever written on a
 * given. An event that names what the layout does not have writes nothing. Marks and tags can be set, and
 * candidates struck, only where they are live; a toggle of what is not shown changes nothing.
 */
export function write(state: SheetState, event: Exclude<SheetEvent, { kind: 'several' }>): SheetState {
  const { layout } = state;
  switch (event.kind) {
    case 'ink':
      if (!isCell(layout, event.cell) || !isDigit(layout, event.digit)) return state;
      return place(state, [event.cell * layout.size + event.digit - 1]);
    case 'ink-all':
      return place(state, event.candidates);
    case 'note': {
      if (!isCell(layout, event.cell) || placedAt(state, event.cell) !== 0) return state;
      const live = event.digits & positionOf(state).candidates.digitsAt(event.cell);
      return note(state, event.cell, state.notes[event.cell] ^ live);
    }
    case 'set-note':
      if (!isCell(layout, event.cell) || placedAt(state, event.cell) !== 0) return state;
      return note(state, event.cell, event.digits & layout.allDigits);
    case 'spot': {
      const parts = isHouseFact(layout, event.fact) ? factParts(layout, event.fact) : null;
      if (parts?.kind !== 'house' || !parts.house.cells.includes(event.cell)) return state;
      if (!isLive(state, event.cell * layout.size + parts.digit - 1)) return state;
      const old = state.spots.get(event.fact) ?? [];
      const cells = old.includes(event.cell) ? old.filter((c) => c !== event.cell) : [...old, event.cell];
      return spot(
        state,
        event.fact,
        cells.sort((a, b) => a - b),
      );
    }
    case 'set-spots': {
      const parts = isHouseFact(layout, event.fact) ? factParts(layout, event.fact) : null;
      if (parts?.kind !== 'house') return state;
      const wanted = parts.house.cells.filter((c) => event.cells.includes(c) && state.givens[c] === 0);
      return spot(
        state,
        event.fact,
        wanted.sort((a, b) => a - b),
      );
    }
    case 'strike':
      return toggleStrikes(state, event.candidates);
    case 'take':
      return place(strike(state, event.strikes), event.placements);
    case 'erase':
      return erase(state, event.cell);
    case 'fill':
      return fill(state);
    case 'tag':
      return tag(state, event.candidate, event.tag);
    case 'restart':
      return restart(state);
    case 'lock': {
      if (state.ink.every((digit) => digit === 0)) return state;
      return {
        ...state,
        givens: state.givens.map((_, cell) => placedAt(state, cell)),
        ink: state.ink.map(() => 0),
      };
    }
    case 'open':
      return open(state, event);
  }
}
