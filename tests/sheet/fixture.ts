import fc from 'fast-check';
import { factName } from '../../source/argument/fact.ts';
import type { Fact } from '../../source/argument/kernel.ts';
import { sayPlace } from '../../source/argument/words.ts';
import type { Candidate, Layout } from '../../source/grid/layout.ts';
import { makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import { parseCell, parseDigit } from '../../source/grid/names.ts';
import { liveMarks, pendingFacts } from '../../source/sheet/marks.ts';
import { parseMoves } from '../../source/sheet/moves.ts';
import { newSheet, redo, reduce, undo } from '../../source/sheet/sheet.ts';
import type { Sheet, SheetEvent, SheetState } from '../../source/sheet/state.ts';
import { claimsOf } from '../../source/sheet/view.ts';

/** The seed of this run: `INKLING_SEED`, or a new one; every file that uses it prints it. */
export const seed = Number(process.env.INKLING_SEED ?? Date.now() % 2 ** 31);

export const empty = '.'.repeat(81);
/** Figure 1 of Crook, Notices of the AMS 56(4), 2009, as set in the assignment built on it (its third grid). */
export const crook = '..19....86...85.3...7.6.1...34.9.......5.4.......1.42...5.7.9...1.84...77....92..';
/** 4x4 with 2x2 boxes: small enough to list all of its 288 solutions. */
export const small = makeLayout({ name: 'small', size: 4, boxOf: rectangularBoxes(2, 2) });

/** A sheet of a line of signs; whatever is no digit of the layout is open. */
export const sheetOf = (line: string, layout: Layout = plain): Sheet =>
  newSheet(
    layout,
    Array.from(line, (sign) => parseDigit(layout, sign) ?? 0),
    'test',
  );

/** The events behind one word of the fixture notation. */
function eventsOf(layout: Layout, word: string): SheetEvent[] {
  const moves = (text: string): SheetEvent[] => {
    const read = parseMoves(text, layout);
    if (!read.ok) throw new Error(`${word}: ${read.error.message}`);
    return read.value.flatMap((move) => (move.kind === 'event' ? [move.event] : []));
  };
  if (word === 'fill' || word === 'restart' || word === 'lock') return [{ kind: word }];
  if (word.startsWith('x')) return [{ kind: 'erase', cell: parseCell(layout, word.slice(1))! }];
  if (!word.startsWith('~')) return moves(word);
  return moves(word.slice(1)).flatMap((event): SheetEvent[] => {
    if (event.kind === 'set-note') return [{ kind: 'note', cell: event.cell, digits: event.digits }];
    if (event.kind === 'set-spots') {
      return event.cells.map((cell) => ({ kind: 'spot', fact: event.fact, cell }));
    }
    if (event.kind === 'take') return [{ kind: 'strike', candidates: event.strikes }];
    throw new Error(`${word}: nothing to toggle`);
  });
}

/**
 * Plays a line of moves, separated by spaces, as they are typed in the workbench; besides `xr4c7` (erase),
 * `~r4c8:3`, `~7@c2:r3`, `~r4c7<>3` (toggles), `fill`, `restart`, `lock`, `undo`, `redo`.
 */
export function play(sheet: Sheet, line: string): Sheet {
  let now = sheet;
  for (const word of line.split(' ').filter((part) => part !== '')) {
    if (word === 'undo') now = undo(now);
    else if (word === 'redo') now = redo(now);
    else for (const event of eventsOf(now.state.layout, word)) now = reduce(now, event);
  }
  return now;
}

const tell = (layout: Layout, fact: Fact, places: readonly Candidate[]): string =>
  `${factName(layout, fact)}:${places.map((place) => sayPlace(layout, fact, place)).join(',')}`;

/** `7@c2:r3,r8`, one word a claim with its live places, in the order of the claims. */
export const claims = (state: SheetState, asking = false): string =>
  claimsOf(state, { asking })
    .map(({ fact, places }) => tell(state.layout, fact, places))
    .join(' ');

/** The same for what is pending. */
export const pending = (state: SheetState): string =>
  pendingFacts(state)
    .map((fact) => tell(state.layout, fact, liveMarks(state, fact)))
    .join(' ');

/** Any event of a layout, sensible or not; the rare ones rarely. */
export function anyEvent(layout: Layout): fc.Arbitrary<SheetEvent> {
  const { size, cellCount, houses } = layout;
  const cell = fc.nat(cellCount - 1);
  const digit = fc.integer({ min: 1, max: size });
  const digits = fc.integer({ min: 0, max: layout.allDigits });
  const candidate = fc.nat(cellCount * size - 1);
  const candidates = fc.array(candidate, { maxLength: 3 });
  const fact = fc.integer({ min: cellCount, max: cellCount + houses.length * size - 1 });
  const spot = fc
    .tuple(fact, fc.nat(size - 1))
    .map(([f, i]) => ({ fact: f, cell: houses[Math.floor((f - cellCount) / size)].cells[i] }));
  const spots = fc.tuple(
    fact,
    fc.subarray(
      Array.from({ length: size }, (_, i) => i),
      { maxLength: 3 },
    ),
  );
  const grid = fc.array(fc.oneof({ arbitrary: fc.constant(0), weight: 4 }, digit), {
    minLength: cellCount,
    maxLength: cellCount,
  });
  return fc.oneof(
    { weight: 8, arbitrary: fc.record({ kind: fc.constant('ink' as const), cell, digit }) },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant('ink-all' as const), candidates }) },
    { weight: 6, arbitrary: fc.record({ kind: fc.constant('note' as const), cell, digits }) },
    { weight: 4, arbitrary: fc.record({ kind: fc.constant('set-note' as const), cell, digits }) },
    { weight: 6, arbitrary: spot.map((where) => ({ kind: 'spot' as const, ...where })) },
    {
      weight: 6,
      arbitrary: spots.map(([f, places]) => ({
        kind: 'set-spots' as const,
        fact: f,
        cells: places.map((i) => houses[Math.floor((f - cellCount) / size)].cells[i]),
      })),
    },
    { weight: 5, arbitrary: fc.record({ kind: fc.constant('strike' as const), candidates }) },
    {
      weight: 2,
      arbitrary: fc.record({
        kind: fc.constant('take' as const),
        placements: candidates,
        strikes: candidates,
      }),
    },
    { weight: 10, arbitrary: fc.record({ kind: fc.constant('erase' as const), cell }) },
    { weight: 1, arbitrary: fc.constant({ kind: 'fill' as const }) },
    {
      weight: 2,
      arbitrary: fc.record({
        kind: fc.constant('tag' as const),
        candidate,
        tag: fc.constantFrom('m', 't', 'v', 'y', null),
      }),
    },
    { weight: 1, arbitrary: fc.constantFrom({ kind: 'restart' as const }, { kind: 'lock' as const }) },
    {
      weight: 1,
      arbitrary: fc.record({
        kind: fc.constant('open' as const),
        layout: fc.constant(writeLayout(layout)),
        name: fc.constantFrom('one', 'two'),
        givens: grid,
        notes: fc.constantFrom<readonly number[]>(
          [],
          Array.from({ length: cellCount }, (_, i) => i % 8),
        ),
      }),
    },
  );
}

/** An event, or a step through the history. */
export type Action = SheetEvent | { readonly kind: 'undo' | 'redo'; readonly steps: number };

export const anyAction = (layout: Layout): fc.Arbitrary<Action> =>
  fc.oneof(
    { weight: 12, arbitrary: anyEvent(layout) },
    {
      weight: 3,
      arbitrary: fc.record({
        kind: fc.constantFrom('undo' as const, 'redo' as const),
        steps: fc.integer({ min: 1, max: 4 }),
      }),
    },
  );

export function act(sheet: Sheet, action: Action): Sheet {
  switch (action.kind) {
    case 'undo':
      return undo(sheet, action.steps);
    case 'redo':
      return redo(sheet, action.steps);
    default:
      return reduce(sheet, action);
  }
}
