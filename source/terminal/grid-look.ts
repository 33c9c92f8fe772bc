import { factParts } from '../argument/fact.ts';
import { countDigits, digitsIn, maskOf } from '../grid/candidates.ts';
import {
  type Candidate,
  type Cell,
  cellOf,
  type Digit,
  type DigitMask,
  digitOf,
  type House,
  type Layout,
} from '../grid/layout.ts';
import { digitName } from '../grid/names.ts';
import { Position } from '../grid/position.ts';
import type { Drawing, DrawnCandidate } from '../hint/rung.ts';
import { liveNote, liveSpots, liveTags, pendingFacts, placedAt, positionOf } from '../sheet/marks.ts';
import type { SheetState, Slip } from '../sheet/state.ts';
import { regionShades } from './region-shades.ts';
import type { Ground, Role } from './screen.ts';
import { tagRole } from './tags.ts';

/** Everything that a picture of a grid shows; nothing that it does not. */
export interface GridScene {
  readonly state: SheetState;
  readonly cursor: Cell | null;
  readonly slips: readonly Slip[];
  /** What a hint draws, and no more than its rung allows. */
  readonly drawing: Drawing | null;
  /** The digit that is looked for, and in which places it can go. Off while a drawing shows. */
  readonly found: { readonly digit: Digit; readonly places: ReadonlySet<Candidate> } | null;
  /** Cells shown as holding two candidates. Off while a drawing shows. */
  readonly bivalue: ReadonlySet<Cell>;
}

export interface Sign {
  readonly char: string;
  readonly role: Role;
}

/** A digit (or a dot where one was struck) in its place. Neighbours with one `key` share their signs. */
export interface MarkLook {
  readonly digit: Digit;
  readonly char: string;
  readonly role: Role;
  readonly signs: readonly Sign[];
  readonly key: string;
  /** Weak: a sign may stand here instead. */
  readonly weight: 'dot' | 'plain' | 'signed';
}

export interface PlacedLook {
  readonly digit: Digit;
  readonly kind: 'given' | 'ink';
  readonly role: 'given' | 'ink' | 'slip' | 'foundPlaced';
  readonly sign: Sign | null;
}

export interface CellLook {
  readonly cell: Cell;
  readonly row: number;
  readonly column: number;
  readonly placed: PlacedLook | null;
  /** Nothing can stand here: `none!`. */
  readonly nothingLeft: boolean;
  readonly marks: readonly MarkLook[];
  readonly ground: Ground;
  readonly hasCursor: boolean;
  readonly inHouse: boolean;
  readonly isBivalue: boolean;
  /** What tells that the cell lies on a diagonal or in an extra house, where no tint does; null elsewhere. */
  readonly extraSign: string | null;
}

/** A house with its name, where that is shown. */
export interface NamedHouse {
  readonly kind: House['kind'];
  readonly name: string;
  readonly role: Role;
  readonly cells: readonly Cell[];
}

export interface GridLook {
  readonly size: number;
  /** For each cell the number of its box, from 0. */
  readonly boxOf: readonly number[];
  readonly cells: readonly CellLook[];
  readonly rowLabels: readonly Role[];
  readonly columnLabels: readonly Role[];
  /** Boxes, diagonals and extra houses whose names are shown. */
  readonly named: readonly NamedHouse[];
}

/** The chip of a fact's letter. */
export function factRole(letter: string): Role {
  if (letter === 'A') return 'factA';
  if (letter === 'B') return 'factB';
  return letter === 'C' ? 'factC' : 'factMore';
}

/** How the places of a fact look that it has not taken in an arrangement. */
function otherRole(letter: string): Role {
  if (letter === 'A') return 'factAOther';
  return letter === 'B' ? 'factBOther' : 'factOther';
}

const factSign = (letter: string): Sign => ({
  char: letter.length === 1 ? letter : '&',
  role: factRole(letter),
});

function drawnLook(drawn: readonly DrawnCandidate[]): { role: Role; signs: Sign[] } {
  const other = drawn.find(({ role }) => role !== 'fact' && role !== 'fact-not-chosen');
  if (other) {
    switch (other.role) {
      case 'strike':
        return { role: 'strike', signs: [{ char: '×', role: 'strikeSign' }] };
      case 'out-already':
        return { role: 'outAlready', signs: [{ char: '/', role: 'outAlready' }] };
      case 'placement':
        return { role: 'placement', signs: [{ char: '=', role: 'placement' }] };
      case 'overlooked':
        return { role: 'overlooked', signs: [{ char: '*', role: 'overlooked' }] };
      case 'fact':
      case 'fact-not-chosen':
        break;
    }
  }
  const chosen = drawn.filter(({ role }) => role === 'fact');
  if (chosen.length === 0) {
    const others = [...new Set(drawn.map(({ letter }) => letter ?? '&'))];
    const signs = others.map((letter) => ({
      char: letter.length === 1 ? letter.toLowerCase() : '&',
      role: otherRole(letter),
    }));
    return { role: otherRole(others[0]), signs };
  }
  const letters = [...new Set(chosen.map(({ letter }) => letter ?? '&'))];
  return { role: factRole(letters[0]), signs: letters.map(factSign) };
}

const none: ReadonlySet<Candidate> = new Set();

const spotSigns = { row: '-', column: '|', box: '.', diagonal: '+', extra: '+' } as const;

/** What each spot mark shows: by candidate, the kinds of its houses and whether it stands alone, unclaimed. */
function spotLooks(state: SheetState) {
  const looks = new Map<Candidate, { kinds: House['kind'][]; lone: boolean }>();
  const pending = new Set(pendingFacts(state));
  for (const fact of state.spots.keys()) {
    const parts = factParts(state.layout, fact);
    if (parts.kind !== 'house') continue;
    const cells = liveSpots(state, fact);
    const lone = cells.length === 1 && pending.has(fact);
    for (const cell of cells) {
      const candidate = cell * state.layout.size + parts.digit - 1;
      const look = looks.get(candidate) ?? { kinds: [], lone: true };
      look.kinds.push(parts.house.kind);
      look.lone &&= lone;
      looks.set(candidate, look);
    }
  }
  return looks;
}

/** How cells on diagonals and in extra houses are marked: along their diagonal, or with a plus. */
function extraSignsOf({ houses, size }: Layout): ReadonlyMap<Cell, string> {
  const signs = new Map<Cell, string>();
  for (const { kind, cells } of houses) {
    if (kind === 'extra') for (const cell of cells) signs.set(cell, '+');
    if (kind !== 'diagonal') continue;
    const char = cells.includes(size - 1) ? '/' : '\\';
    for (const cell of cells) signs.set(cell, signs.has(cell) ? 'x' : char);
  }
  return signs;
}

/** Turns a scene into what stands where, size of the screen and colours aside. */
export function lookAt(scene: GridScene): GridLook {
  const { state, drawing } = scene;
  const { layout } = state;
  const { size } = layout;
  const position = positionOf(state);
  const unstruck = state.strikes.isEmpty
    ? position.candidates
    : Position.from(layout, state.givens, position.placed).candidates;
  const spots = spotLooks(state);
  const tags = liveTags(state);
  const pending = new Set(pendingFacts(state));
  const found = drawing ? null : scene.found;
  const drawn = new Map<Candidate, DrawnCandidate[]>();
  for (const each of drawing?.candidates ?? []) {
    drawn.set(each.candidate, [...(drawn.get(each.candidate) ?? []), each]);
  }
  const house = drawing?.house === null || !drawing ? null : layout.houses[drawing.house];
  const flagged = new Set<Cell>();
  const nothingLeft = new Set<Cell>();
  const goneClaims = new Map<Candidate, true>();
  for (const slip of scene.slips) {
    if (slip.kind === 'twice') for (const cell of slip.cells) flagged.add(cell);
    if (slip.kind === 'no-digit' || (slip.kind === 'empty-claim' && slip.digit === null)) {
      for (const cell of slip.cells) nothingLeft.add(cell);
    }
    if (slip.kind === 'empty-claim' && slip.digit !== null) {
      for (const cell of slip.cells) goneClaims.set(cell * size + slip.digit - 1, true);
    }
  }

  // Most cells of most grids have no mark at all.
  const marked = new Set<Cell>();
  for (const marks of [drawn, goneClaims, tags, spots, found?.places ?? none]) {
    for (const candidate of marks.keys()) marked.add(cellOf(layout, candidate));
  }
  const mayHaveMarks = (cell: Cell) =>
    marked.has(cell) || state.notes[cell] !== 0 || state.strikes.digitsAt(cell) !== 0;
  const notes: DigitMask[] = [];
  const markLook = (cell: Cell, digit: Digit, woven: boolean): MarkLook | null => {
    const candidate = cell * size + digit - 1;
    const char = digitName(digit);
    const key = (role: Role, signs: readonly Sign[]) => role + signs.map((sign) => sign.char).join('');
    const signed = (role: Role, ...signs: Sign[]): MarkLook => ({
      digit,
      char,
      role,
      signs,
      key: key(role, signs),
      weight: 'signed',
    });
    const hint = drawn.get(candidate);
    if (hint) {
      const { role, signs } = drawnLook(hint);
      return signed(role, ...signs);
    }
    if (goneClaims.has(candidate)) return signed('slip', { char: '!', role: 'slip' });
    if (found?.digit === digit && found.places.has(candidate)) {
      return { digit, char, role: 'foundMark', signs: [], key: '', weight: 'signed' };
    }
    const tag = tags.get(candidate);
    if (tag !== undefined) {
      const role = tagRole(tag);
      return signed(role, { char: tag, role });
    }
    const spot = spots.get(candidate);
    if (spot) {
      const role = spot.lone ? 'pending' : 'spot';
      const kind = spot.kinds.length === 1 ? spotSigns[spot.kinds[0]] : '+';
      // Every spot sign but `?` is for the roomy layout alone, where each mark has room for one.
      const signs = [{ char: spot.lone ? '?' : kind, role }] as const;
      const plain = { digit, char, role, signs, key: `${candidate}` } as const;
      return { ...plain, weight: spot.lone ? 'signed' : 'plain' };
    }
    notes[cell] ??= liveNote(state, cell);
    const note = notes[cell];
    if ((note & maskOf(digit)) !== 0) {
      const role = woven ? 'noteWoven' : 'note';
      if (countDigits(note) === 1 && pending.has(cell)) return signed(role, { char: '?', role });
      const shown = !drawing && scene.bivalue.has(cell) ? 'foundMark' : role;
      return { digit, char, role: shown, signs: [], key: '', weight: 'plain' };
    }
    if (state.strikes.has(candidate) && unstruck.has(candidate)) {
      return { digit, char: '·', role: 'struck', signs: [], key: '', weight: 'dot' };
    }
    return null;
  };

  const placedLook = (cell: Cell, digit: Digit): PlacedLook => {
    const kind = state.givens[cell] !== 0 ? 'given' : 'ink';
    if (flagged.has(cell)) return { digit, kind, role: 'slip', sign: { char: '!', role: 'slip' } };
    return { digit, kind, role: found?.digit === digit ? 'foundPlaced' : kind, sign: null };
  };

  const digits = digitsIn(layout.allDigits);
  const extraSigns = extraSignsOf(layout);
  const shades = regionShades(layout);
  const cells = Array.from({ length: layout.cellCount }, (_, cell): CellLook => {
    const row = Math.floor(cell / size);
    const column = cell % size;
    const shade = shades?.[layout.boxOf[cell]] ?? ((row + column) % 2 === 0 ? 'tile' : 'plain');
    const digit = placedAt(state, cell);
    const hasCursor = scene.cursor === cell;
    const inHouse = house?.cells.includes(cell) ?? false;
    const extraSign = extraSigns.get(cell) ?? null;
    // Beside what a diagonal or an extra box stands on, no other pattern.
    const ground = extraSign !== null ? 'extra' : extraSigns.size > 0 ? 'plain' : shade;
    const placed = digit === 0 ? null : placedLook(cell, digit);
    const isEmpty = digit === 0 && nothingLeft.has(cell);
    const isOpen = digit === 0 && !isEmpty && mayHaveMarks(cell);
    return {
      cell,
      row,
      column,
      hasCursor,
      inHouse,
      extraSign,
      ground: hasCursor ? 'cursor' : inHouse ? 'house' : ground,
      placed,
      nothingLeft: isEmpty,
      marks: isOpen ? digits.flatMap((d) => markLook(cell, d, shade === 'tile') ?? []) : [],
      isBivalue: digit === 0 && !drawing && scene.bivalue.has(cell),
    };
  });

  const labelRole = (index: number, isCursor: boolean): Role => {
    const fact = drawing?.houses.find((each) => each.house === index);
    if (fact) return factRole(fact.letter);
    if (house?.index === index) return 'labelHouse';
    if (scene.slips.some((slip) => slip.house === index)) return 'labelSlip';
    return isCursor ? 'labelCursor' : 'label';
  };
  const labels = (kind: House['kind'], cursorAt: number): Role[] =>
    layout.houses
      .filter((each) => each.kind === kind)
      .map((each) => labelRole(each.index, each.number - 1 === cursorAt));
  const cursorRow = scene.cursor === null ? -1 : Math.floor(scene.cursor / size);
  const cursorColumn = scene.cursor === null ? -1 : scene.cursor % size;
  return {
    size,
    boxOf: layout.boxOf,
    cells,
    rowLabels: labels('row', cursorRow),
    columnLabels: labels('column', cursorColumn),
    named: layout.houses
      .filter(({ kind }) => kind !== 'row' && kind !== 'column')
      .map(({ index, kind, name, cells: own }) => ({ kind, name, cells: own, role: labelRole(index, false) }))
      .filter(({ role }) => role !== 'label'),
  };
}

/** Which cells hold exactly two live candidates. */
export function bivalueCells(position: Position): Set<Cell> {
  const { layout, candidates, placed } = position;
  return new Set(
    Array.from({ length: layout.cellCount }, (_, cell) => cell).filter(
      (cell) => placed[cell] === 0 && countDigits(candidates.digitsAt(cell)) === 2,
    ),
  );
}

/** Every place that a digit can still go, cells that hold it aside. */
export function placesOfDigit(position: Position, digit: Digit): Set<Candidate> {
  const { layout, candidates, placed } = position;
  return new Set(
    [...candidates].filter((c) => digitOf(layout, c) === digit && placed[cellOf(layout, c)] === 0),
  );
}
