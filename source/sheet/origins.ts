import { flawNumber, flawsOf } from './flaws.ts';
import { newSheet } from './sheet.ts';
import type { Sheet, SheetState } from './state.ts';

/*
 * A long walk may leave many things wrong for thousands of steps, and slips are told after every key. So each
 * state's flaws are kept as bare numbers, and where they came in as numbers beside them: the next state then
 * only looks at the one before it.
 */
const flawNumbers = new WeakMap<SheetState, Int32Array>();
const known = new WeakMap<SheetState, { readonly depth: number; readonly origins: Int32Array }>();

/** One for all states with nothing wrong: a history of thousands of moves keeps each state's. */
const none = new Int32Array(0);

function numbersOf(state: SheetState): Int32Array {
  let numbers = flawNumbers.get(state);
  if (!numbers) {
    const flaws = flawsOf(state, { asking: true });
    numbers =
      flaws.length === 0
        ? none
        : Int32Array.from(flaws, (flaw) => flawNumber(state.layout, flaw.kind, flaw.fact));
    flawNumbers.set(state, numbers);
  }
  return numbers;
}

/** For each number of the state the index in `past` of the event that brought it in; -1 for none. */
function find(sheet: Sheet): Int32Array {
  const { state, past } = sheet;
  const numbers = numbersOf(state);
  if (numbers.length === 0) return none;
  const origins = new Int32Array(numbers.length).fill(-1);
  let open = Array.from(numbers, (_, i) => i);
  for (let at = past.length - 1; at >= 0 && open.length > 0; at -= 1) {
    const { before, event } = past[at];
    if (event.kind === 'open') {
      const given = numbersOf(newSheet(state.layout, event.givens, '').state);
      for (const i of open) if (!given.includes(numbers[i])) origins[i] = at;
      return origins;
    }
    const earlier = numbersOf(before);
    const answer = known.get(before);
    for (const i of open) {
      const place = earlier.indexOf(numbers[i]);
      if (place < 0) origins[i] = at;
      else if (answer?.depth === at) origins[i] = answer.origins[place];
    }
    if (answer?.depth === at) return origins;
    open = open.filter((i) => origins[i] < 0);
  }
  return origins;
}

/**
 * Which event brought the sheet's flaws in: for the number of a flaw (`flawNumber`) the index in `past`, or
 * null where there is no move to take back, because the sheet began with it or the givens have it.
 * The history is looked at backwards as long as the same thing was wrong, though not beyond the opening of
 * another grid; the fact in hand counts as claimed, so that the mark itself is named and not what came next.
 */
export function originsOf(sheet: Sheet): (flaw: number) => number | null {
  const { state, past } = sheet;
  let answer = known.get(state);
  if (answer?.depth !== past.length) {
    answer = { depth: past.length, origins: find(sheet) };
    known.set(state, answer);
  }
  const { origins } = answer;
  const numbers = numbersOf(state);
  return (flaw) => {
    const origin = origins[numbers.indexOf(flaw)] ?? -1;
    return origin < 0 ? null : origin;
  };
}
