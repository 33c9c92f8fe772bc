import type { Fact } from '../argument/kernel.ts';
import { CandidateSet } from '../grid/candidates.ts';
import type { Digit, DigitMask, Layout } from '../grid/layout.ts';
import { writeLayout } from '../grid/layout-text.ts';
import { liveMarks, markedFacts, marksOf } from './marks.ts';
import { write } from './pens.ts';
import type { Sheet, SheetEvent, SheetState } from './state.ts';

/** The fact whose marks an event writes; null where it writes something else. */
function factOf(event: SheetEvent): Fact | null {
  switch (event.kind) {
    case 'note':
    case 'set-note':
      return event.cell;
    case 'spot':
    case 'set-spots':
      return event.fact;
    case 'ink':
    case 'ink-all':
    case 'strike':
    case 'take':
    case 'erase':
    case 'fill':
    case 'tag':
    case 'several':
    case 'restart':
    case 'lock':
    case 'open':
      return null;
  }
}

/** Whether the event erases or rewrites marks by hand, so that it may end a claim. */
const isByHand = (event: SheetEvent): boolean => factOf(event) !== null || event.kind === 'erase';

const sameMarks = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((mark, i) => mark === b[i]);

/**
 * Which facts are claimed after an event.
 * - A fact with two live marks or more is claimed as soon as the person goes on to something else.
 * - An edit by hand that changes a claimed fact's live marks and leaves fewer than two ends the claim; so
 *   does one that leaves no mark at all. Otherwise the fact counts as written last.
 * - Notes that come with a grid, and those that `fill` writes, are claimed at once, lone ones too: they say
 *   what each cell can be.
 */
function claimedAfter(before: SheetState, event: SheetEvent, after: SheetState): ReadonlySet<Fact> {
  if (event.kind === 'restart') return new Set();
  if (event.kind === 'open') return new Set(markedFacts(after));
  const about = factOf(event);
  const claimed = new Set(before.claimed);
  const { inHand } = before;
  if (inHand !== null && inHand !== about && liveMarks(before, inHand).length >= 2) claimed.add(inHand);
  for (const fact of isByHand(event) ? [...claimed] : []) {
    const marks = marksOf(after, fact);
    if (sameMarks(marksOf(before, fact), marks)) continue;
    const live = liveMarks(after, fact);
    claimed.delete(fact);
    if (live.length >= 2) claimed.add(fact);
    else if (marks.length > 0 && sameMarks(liveMarks(before, fact), live)) claimed.add(fact);
  }
  for (const fact of markedFacts(after)) {
    if (fact === about || claimed.has(fact)) continue;
    const isFilled = event.kind === 'fill' && before.notes[fact] !== after.notes[fact];
    if (isFilled || liveMarks(after, fact).length >= 2) claimed.add(fact);
  }
  return sameMarks([...claimed], [...before.claimed]) ? before.claimed : claimed;
}

/**
 * The state after an event; the very same state where the event changes nothing. Pure, and deterministic:
 * the same events from the same state lead to an equal state.
 */
export function apply(state: SheetState, event: SheetEvent): SheetState {
  if (event.kind === 'several') return event.events.reduce(apply, state);
  const written = write(state, event);
  if (written === state) return state;
  return { ...written, claimed: claimedAfter(state, event, written), inHand: factOf(event) };
}

/**
 * A fresh sheet without history. `givens`: one digit a cell, 0 where it is open. `notes`, where there are
 * any: one mask a cell, 0 where nothing is listed; they are claimed from the start.
 * Throws a RangeError where the givens do not fit the layout: readers have checked them.
 */
export function newSheet(
  layout: Layout,
  givens: readonly Digit[],
  name: string,
  notes: readonly DigitMask[] = [],
): Sheet {
  const fits = (digit: Digit) => Number.isInteger(digit) && digit >= 0 && digit <= layout.size;
  if (givens.length !== layout.cellCount || !givens.every(fits)) {
    throw new RangeError(`givens do not fit the ${layout.name} layout`);
  }
  const none = Array.from({ length: layout.cellCount }, () => 0);
  const blank: SheetState = {
    layout,
    name: '',
    givens: none,
    ink: none,
    strikes: CandidateSet.empty(layout),
    notes: none,
    spots: new Map(),
    claimed: new Set(),
    inHand: null,
    tags: new Map(),
  };
  return {
    state: apply(blank, { kind: 'open', layout: writeLayout(layout), name, givens, notes }),
    past: [],
    future: [],
  };
}

/**
 * The sheet after an event, which becomes one undo step and ends what could be redone. An event that changes
 * nothing answers with the very same sheet.
 */
export function reduce(sheet: Sheet, event: SheetEvent): Sheet {
  const state = apply(sheet.state, event);
  if (state === sheet.state) return sheet;
  return { state, past: [...sheet.past, { before: sheet.state, event }], future: [] };
}

/** The sheet some steps back, as far as there are any; the very same sheet where there are none. */
export function undo(sheet: Sheet, steps = 1): Sheet {
  let { state } = sheet;
  const past = [...sheet.past];
  const future = [...sheet.future];
  for (let left = steps; left > 0; left -= 1) {
    const step = past.pop();
    if (!step) break;
    future.push({ after: state, event: step.event });
    state = step.before;
  }
  return state === sheet.state ? sheet : { state, past, future };
}

/** The sheet some undone steps forward, as far as there are any; the very same sheet where there are none. */
export function redo(sheet: Sheet, steps = 1): Sheet {
  let { state } = sheet;
  const past = [...sheet.past];
  const future = [...sheet.future];
  for (let left = steps; left > 0; left -= 1) {
    const step = future.pop();
    if (!step) break;
    past.push({ before: state, event: step.event });
    state = step.after;
  }
  return state === sheet.state ? sheet : { state, past, future };
}
