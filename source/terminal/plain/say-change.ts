import { factParts } from '../../argument/fact.ts';
import { list } from '../../argument/words.ts';
import { type Cell, cellOf, digitOf } from '../../grid/layout.ts';
import { cellName, digitName, placementName, sayHouse, sayHouseKind } from '../../grid/names.ts';
import type { HintLine } from '../../hint/rung.ts';
import { liveSpots, pendingFacts } from '../../sheet/marks.ts';
import type { SheetEvent, SheetState } from '../../sheet/state.ts';
import { type App, arguedOf, canClimb, canTake, keyOf, rungOf, shownOf } from '../app-state.ts';
import { sayBivalue, sayCellAt, sayDigit } from '../describing.ts';
import { saySolutions } from '../solutions.ts';

/** What a sign says that is no fact's letter: the sentences say it themselves. */
const wordless: ReadonlySet<string> = new Set(['', '×', '/', '=', '*', '!']);

const plainly = ({ sign, text }: HintLine): string => (wordless.has(sign) ? text : `Fact ${sign}: ${text}`);

function sayCells(state: SheetState, cells: readonly Cell[]): string[] {
  return [...new Set(cells)].sort((a, b) => a - b).map((cell) => sayCellAt(state, cell));
}

/** What an event has come to on the sheet that it led to. */
function sayDone(state: SheetState, event: SheetEvent): string[] {
  const { layout } = state;
  switch (event.kind) {
    case 'ink':
      return [`${placementName(layout, event.cell * layout.size + event.digit - 1)}.`];
    case 'ink-all':
      return event.candidates.map((candidate) => `${placementName(layout, candidate)}.`);
    case 'note':
    case 'set-note':
    case 'erase':
      return [sayCellAt(state, event.cell)];
    case 'spot':
    case 'set-spots': {
      const parts = factParts(layout, event.fact);
      if (parts.kind !== 'house') return [];
      const topic = `${digitName(parts.digit)} of ${sayHouse(parts.house)}`;
      const cells = liveSpots(state, event.fact).map((cell) => cellName(layout, cell));
      if (cells.length === 0) return [`${topic}: no spot.`];
      const alone = cells.length === 1 && pendingFacts(state).includes(event.fact);
      return [`${topic}: spot in ${list(cells)}.${alone ? ' One spot alone says nothing yet.' : ''}`];
    }
    case 'strike': {
      const cells = event.candidates.map((candidate) => cellOf(layout, candidate));
      const struck = event.candidates.some((candidate) => state.strikes.has(candidate));
      const words = event.candidates.map(
        (c) => `${digitName(digitOf(layout, c))} in ${cellName(layout, cellOf(layout, c))}`,
      );
      if (words.length > 4) return sayCells(state, cells);
      return [`${struck ? 'Struck' : 'Back'}: ${words.join(', ')}.`];
    }
    case 'take': {
      const placed = event.placements.map((candidate) => `${placementName(layout, candidate)}.`);
      const struck = event.strikes.map(
        (c) => `${digitName(digitOf(layout, c))} in ${cellName(layout, cellOf(layout, c))}`,
      );
      return [...placed, ...(struck.length > 0 ? [`Struck: ${struck.join(', ')}.`] : [])];
    }
    case 'fill':
      return ['All candidates are noted.'];
    case 'tag':
      return [sayCellAt(state, cellOf(layout, event.candidate))];
    case 'several':
      return event.events.flatMap((each) => sayDone(state, each));
    case 'restart':
    case 'lock':
    case 'open':
      return [];
  }
}

/** The events that led from one sheet to the next; none where it was undone or done again. */
function newEvents(
  { sheet: before, trail }: App,
  { sheet: after, trail: now }: App,
): { readonly event: SheetEvent; readonly state: SheetState }[] {
  if (trail !== now) return [];
  if (after.past.length <= before.past.length || after.future.length < before.future.length - 1) return [];
  const first = before.past.length;
  const isRedone = before.future.at(-1)?.event === after.past[first]?.event;
  if (isRedone) return [];
  return after.past.slice(first).map(({ event }, index) => ({
    event,
    state: after.past[first + index + 1]?.before ?? after.state,
  }));
}

function saySlips(before: App, after: App): string[] {
  if (before.slips === after.slips) return [];
  const known = new Set(before.slips.map(({ text }) => text));
  const fresh = after.slips.filter(({ text }) => !known.has(text));
  if (fresh.length === 0)
    return after.slips.length === 0 && before.slips.length > 0 ? ['No slip any more.'] : [];
  const steps = Math.max(0, ...after.slips.map(({ undoSteps }) => undoSteps));
  const move = after.slips.find(({ undoSteps }) => undoSteps === steps)?.move ?? '';
  const way =
    steps === 0
      ? []
      : steps === 1
        ? [`${keyOf(after, 'undo')} takes back: ${move}.`]
        : [`${keyOf(after, 'back')} goes back to before: ${move}, ${steps} moves ago.`];
  return [...fresh.map(({ text }) => `Slip: ${text}`), ...way];
}

function sayHint(before: App, after: App): string[] {
  const rung = rungOf(after);
  if (!after.hint) return [];
  const same = before.hint?.ladder === after.hint.ladder && before.hint.at === after.hint.at;
  if (!rung || same) return [];
  const { length } = after.hint.ladder.rungs;
  const on = canClimb(after)
    ? `${keyOf(after, 'hint')} says more.`
    : canTake(after)
      ? `${keyOf(after, 'take')} takes the step.`
      : '';
  const head = `Hint ${after.hint.at + 1} of ${length}, ${rung.rung}.`;
  return [head, ...rung.lines.map(plainly), ...(on === '' ? [] : [on])];
}

function sayAnswers(before: App, after: App): string[] {
  const lines: string[] = [];
  const argued = arguedOf(after);
  if (argued && argued !== arguedOf(before)) {
    lines.push(argued.answer.headline, ...argued.answer.lines.map(plainly));
  }
  const { series } = after;
  const shown = shownOf(after);
  if (series && shown && series !== before.series) {
    const count = `${series.at + 1} of ${series.shown.length}`;
    lines.push(`${series.title}, ${count}. ${shown.headline}`, ...shown.lines.map(plainly));
    if (series.shown.length > 1) lines.push(`${keyOf(after, 'next-shown')} goes on.`);
  }
  return lines;
}

function sayMode(before: App, after: App): string[] {
  const { mode } = after;
  if (mode === before.mode) return [];
  switch (mode.kind) {
    case 'paste': {
      const { grid } = mode.grids[mode.index];
      const givens = grid.givens.filter((digit) => digit !== 0).length;
      const marked = (grid.marks ?? []).filter((mask) => mask !== 0).length;
      const which =
        mode.grids.length > 1 ? `Pasted grid ${mode.index + 1} of ${mode.grids.length}` : 'Pasted grid';
      const marks = marked > 0 ? `, ${marked} cells with marks` : '';
      const next = mode.grids.length > 1 ? ` ${keyOf(after, 'next-grid')} shows the next.` : '';
      const solutions = saySolutions(mode.solutions);
      const count = solutions === null ? '' : `, ${solutions}`;
      return [
        `${which}: ${givens} givens${marks}${count}.`,
        `${keyOf(after, 'open')} opens it, ${keyOf(after, 'leave')} leaves it.${next}`,
      ];
    }
    case 'find':
      return ['Which digit is to be shown?'];
    case 'hold':
      return ['Which digit is to be taken in hand?'];
    case 'goto':
      return [mode.row === null ? 'Which row?' : 'Which column?'];
    case 'copy':
      return [`${keyOf(after, 'copy-grid')} or ${keyOf(after, 'copy-candidates')}?`];
    case 'count':
      return ['How many times?'];
    case 'ten':
      return ['Which digit? 0 is A, 1 is B, or its letter.'];
    case 'tag':
      return [
        `Tag ${mode.tag}: digits tag candidates of ${cellName(after.sheet.state.layout, after.cursor)}.`,
      ];
    case 'work':
    case 'enter':
    case 'help':
    case 'palette':
    case 'typed':
      return [];
  }
}

function sayTools(before: App, after: App): string[] {
  const lines: string[] = [];
  const { state } = after.sheet;
  if (after.pen !== before.pen || after.spotHouse !== before.spotHouse) {
    lines.push(sayPen(after));
  }
  if (after.held !== before.held && after.held !== null) lines.push(`${digitName(after.held)} is in hand.`);
  if (after.found !== before.found && after.found !== null) lines.push(...sayDigit(state, after.found));
  if (after.showBivalue && !before.showBivalue) lines.push(sayBivalue(state));
  if (after.picked !== before.picked && after.picked.size !== before.picked.size) {
    const { size } = after.picked;
    lines.push(size === 0 ? 'No cell is picked.' : `${size} ${size === 1 ? 'cell' : 'cells'} picked.`);
  }
  return lines;
}

/** Whether something that was open has been left, with nothing else to say of it. */
function isLeft(before: App, after: App): boolean {
  const went = (had: unknown, has: unknown) =>
    had !== null && had !== false && (has === null || has === false);
  return (
    (before.mode.kind !== 'work' && after.mode.kind === 'work') ||
    went(before.hint, after.hint) ||
    went(arguedOf(before), arguedOf(after)) ||
    went(before.series, after.series) ||
    went(before.held, after.held) ||
    went(before.found, after.found) ||
    went(before.showBivalue, after.showBivalue)
  );
}

/** Which pen writes, in a sentence. */
export const sayPen = (app: App): string =>
  app.pen === 'spot'
    ? `Pen: spot in ${app.spotHouse === 'extra' ? 'an' : 'a'} ${sayHouseKind(app.spotHouse)}.`
    : `Pen: ${app.pen}.`;

/**
 * What there is to say of a step of the workbench, in sentences, names of cells and houses still in notation.
 * What shows on a screen by itself (the pen, the cursor, a mark) is said here; nothing where nothing changed.
 */
export function sayChange(before: App, after: App): string[] {
  const events = newEvents(before, after);
  const said = after.message === before.message ? [] : after.message;
  const lines = [
    ...events.flatMap(({ event, state }) => sayDone(state, event)),
    ...said,
    ...saySlips(before, after),
    ...sayHint(before, after),
    ...sayAnswers(before, after),
    ...sayMode(before, after),
    ...sayTools(before, after),
  ];
  if (after.cursor !== before.cursor && after.sheet === before.sheet && said.length === 0 && !after.hint) {
    lines.push(sayCellAt(after.sheet.state, after.cursor));
  }
  return lines.length === 0 && isLeft(before, after) ? ['Left.'] : lines;
}
