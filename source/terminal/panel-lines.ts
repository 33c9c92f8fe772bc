import { factParts } from '../argument/fact.ts';
import { countDigits, digitsIn } from '../grid/candidates.ts';
import { cellName, digitName, sayHouseKind } from '../grid/names.ts';
import type { HintLine } from '../hint/rung.ts';
import { isSolved, liveNote, liveSpots, placedAt } from '../sheet/marks.ts';
import { type App, type Argued, arguedOf, canClimb, canTake, keyOf, rungOf, shownOf } from './app-state.ts';
import { factRole } from './grid-look.ts';
import { sizeForMarks } from './layout-sizes.ts';
import { blankLine, hanging, type PanelLine, type Piece, wrap } from './panel-text.ts';
import { isAtRisk, saySaving } from './saving.ts';
import type { Role } from './screen.ts';
import type { Series } from './series.ts';
import { pens } from './settings.ts';
import { knownPosition, placesShown } from './shown.ts';
import { saySolutions } from './solutions.ts';
import { tagRole } from './tags.ts';
import { sayThinking } from './thinking.ts';

const keyLine = (key: string, words: string): PanelLine => [
  [key.padEnd(5), 'strong'],
  [` ${words}`, 'dim'],
];

const plural = (count: number, noun: string) => `${count} ${noun}${count === 1 ? '' : 's'}`;

const openCount = ({ sheet: { state } }: App): number =>
  state.givens.filter((_, cell) => placedAt(state, cell) === 0).length;

function sayCounts(app: App): string {
  const open = openCount(app);
  return `${app.sheet.state.layout.cellCount - open} placed   ${open} open`;
}

function titleLines(app: App, width: number, showsMarks: boolean): PanelLine[] {
  const { state } = app.sheet;
  const name = state.name.trim() || 'a grid';
  const saving = saySaving(app.saving);
  return [
    ...hanging(null, 0, name, width, 'strong').slice(0, 2),
    ...(showsMarks ? [] : [[[sayCounts(app), 'dim'] as const]]),
    ...(saving === '' ? [blankLine] : hanging(null, 0, saving, width, isAtRisk(app.saving) ? 'text' : 'dim')),
  ];
}

const signRoles: Readonly<Record<string, Role>> = {
  '×': 'strikeSign',
  '/': 'outAlready',
  '=': 'placement',
  '*': 'overlooked',
  '!': 'slip',
};

/** The chip before a line of the hint. */
function signOf(line: HintLine): Piece {
  return [` ${line.sign} `, signRoles[line.sign] ?? factRole(line.sign)];
}

/** Lines with their signs hanging before them, a blank line behind each. */
const signedLines = (lines: readonly HintLine[], width: number): PanelLine[] =>
  lines.flatMap((line) => [
    ...(line.sign === '' ? hanging(null, 0, line.text, width) : hanging(signOf(line), 5, line.text, width)),
    blankLine,
  ]);

function hintLines(app: App, width: number): PanelLine[] {
  const rung = rungOf(app);
  if (!rung || !app.hint) return [];
  const count = `${app.hint.at + 1} of ${app.hint.ladder.rungs.length}`;
  const title = `Hint  ${rung.rung}`;
  const head: PanelLine = [
    ['Hint', 'strong'],
    [title.slice(4), 'text'],
    [' '.repeat(Math.max(1, width - title.length - count.length)), 'text'],
    [count, 'dim'],
  ];
  const body = signedLines(rung.lines, width);
  const { weight } = rung.json;
  const facts: PanelLine[] =
    rung.rung === 'why' && typeof weight === 'number' ? [[[plural(weight, 'fact'), 'dim']], blankLine] : [];
  const keys: PanelLine[] = [];
  if (canClimb(app)) keys.push(keyLine(keyOf(app, 'hint'), 'say more'));
  if (canTake(app)) keys.push(keyLine(keyOf(app, 'take'), 'take it'));
  keys.push(keyLine(keyOf(app, 'leave'), 'leave the hint'));
  return [head, blankLine, blankLine, ...body, ...facts, ...keys];
}

/** The way out of the slips, a key and what it does; null where the sheet began with them. */
function wayOut(app: App): { readonly key: string; readonly words: string } | null {
  const steps = Math.max(0, ...app.slips.map((slip) => slip.undoSteps));
  const slip = app.slips.find(({ undoSteps }) => undoSteps === steps);
  if (!slip || steps === 0) return null;
  return steps === 1
    ? { key: keyOf(app, 'undo'), words: `takes back ${slip.move}` }
    : { key: keyOf(app, 'back'), words: `goes back to before ${slip.move}, ${steps} moves ago` };
}

/** What a typed argument comes to. */
function arguedLines(app: App, { answer }: Argued, width: number): PanelLine[] {
  const { holds, headline, lines } = answer;
  const isHeadSaid = headline === 'Does not hold.';
  const told = isHeadSaid ? [] : [...hanging(null, 0, headline, width), blankLine];
  const body = signedLines(lines, width);
  const head: PanelLine = [
    ['Argument', 'strong'],
    [holds ? ' holds' : isHeadSaid ? ' does not hold' : '', 'text'],
  ];
  const keys = [keyLine(keyOf(app, 'type'), 'edit the line'), keyLine(keyOf(app, 'leave'), 'leave')];
  return [head, blankLine, blankLine, ...told, ...body, ...keys];
}

/** The weights of the steps as a line, the one that shows in bold; of a longer line the part around that. */
function contourLine({ contour, at }: Series, width: number): PanelLine {
  const signs = [...contour];
  if (signs.length < 2) return blankLine;
  const from = Math.max(0, Math.min(signs.length - width, at - Math.floor(width / 2)));
  return signs
    .slice(from, from + width)
    .map((sign, index): Piece => [sign, from + index === at ? 'strong' : 'dim']);
}

/** One of a series: an instance of a technique, or a step on the way to a digit. */
function seriesLines(app: App, width: number): PanelLine[] {
  const { series } = app;
  const shown = shownOf(app);
  if (!series || !shown) return [];
  const { title, at } = series;
  const count = `${at + 1} of ${series.shown.length}`;
  const gap = width - title.length - count.length;
  const head: PanelLine[] =
    gap > 0
      ? [
          [
            [title, 'strong'],
            [' '.repeat(gap), 'text'],
            [count, 'dim'],
          ],
          contourLine(series, width),
        ]
      : [...hanging(null, 0, title, width, 'strong'), [[count, 'dim']]];
  const keys: PanelLine[] = [];
  if (series.shown.length > 1) keys.push(keyLine(keyOf(app, 'next-shown'), 'the next one'));
  keys.push(keyLine(keyOf(app, 'leave'), 'leave'));
  const told = hanging(null, 0, shown.headline, width);
  return [...head, blankLine, ...told, blankLine, ...signedLines(shown.lines, width), ...keys];
}

/** What is wrong, and one way out. */
function slipLines(app: App, width: number): PanelLine[] {
  const body = app.slips.flatMap((slip) => [...hanging(['!', 'slip'], 3, slip.text, width), blankLine]);
  const out = wayOut(app);
  return out ? [...body, ...hanging([out.key, 'strong'], 3, out.words, width, 'dim')] : body;
}

const row = (name: string, value: string, role: Role = 'text'): PanelLine => [
  [`${name.padEnd(6)} `, 'dim'],
  [value, role],
];

/**
 * The cell under the cursor, and what is written there that the grid does not show as clearly: where it draws
 * marks, what stands there to be read is not told again, so that a digit changes no more than its cell.
 */
function cellLines(app: App, width: number, showsMarks: boolean): PanelLine[] {
  const { state } = app.sheet;
  const { layout } = state;
  const cell = app.cursor;
  const lines: PanelLine[] = [row('cell', cellName(layout, cell), 'strong')];
  const wide = (name: string, words: string) => {
    wrap(words, width - 7).forEach((line, index) => {
      lines.push(row(index === 0 ? name : '', line));
    });
  };
  const names = (digits: readonly number[]) =>
    digits.length === 0 ? 'none' : digits.map(digitName).join(' ');
  if (!showsMarks) {
    if (state.givens[cell] !== 0) return [...lines, row('given', digitName(state.givens[cell]))];
    if (state.ink[cell] !== 0) return [...lines, row('ink', digitName(state.ink[cell]))];
    wide('note', names(digitsIn(liveNote(state, cell))));
  }
  const spots = [...state.spots.keys()].flatMap((fact) => {
    const parts = factParts(layout, fact);
    const cells = liveSpots(state, fact);
    if (parts.kind !== 'house' || !cells.includes(cell)) return [];
    // With the spot pen it is plain which house its spots are in: its own kind of house round the cell.
    if (showsMarks && app.pen === 'spot' && parts.house.kind === app.spotHouse) return [];
    return [`${digitName(parts.digit)}@${parts.house.name}`];
  });
  if (spots.length > 0 || !showsMarks) wide('spots', spots.length === 0 ? 'none' : spots.join(' '));
  const digits = digitsIn(layout.allDigits);
  const at = (digit: number) => cell * layout.size + digit - 1;
  if (!showsMarks) wide('struck', names(digits.filter((digit) => state.strikes.has(at(digit)))));
  const tagged = digits.flatMap((digit) => {
    const tag = state.tags.get(at(digit));
    return tag === undefined ? [] : [`${digitName(digit)}${tag}`];
  });
  if (tagged.length > 0) wide('tags', tagged.join(' '));
  return lines;
}

function foundLines(app: App, width: number): PanelLine[] {
  if (app.found === null) return [];
  const { state } = app.sheet;
  const { layout } = state;
  const digit = app.found;
  const cells = state.givens.flatMap((_, cell) => (placedAt(state, cell) === digit ? [cell] : []));
  const names = cells.map((cell) => cellName(layout, cell)).join(' ');
  const words = wrap(cells.length === 0 ? 'none' : names, width - 7);
  return [
    [
      ['digit  ', 'dim'],
      [` ${digitName(digit)} `, 'foundPlaced'],
      [app.held === digit ? '  in hand' : '', 'text'],
    ],
    ...words.map((line, index) => row(index === 0 ? 'placed' : '', line)),
    row('to go', `${layout.size - cells.length}`),
    row('places', `${placesShown(app).size}`),
    row('open', `${openCount(app)} of ${layout.cellCount}`),
  ];
}

function penLines(app: App): PanelLine[] {
  const lines = pens.map((pen): PanelLine => {
    const words = pen === 'spot' ? `spot in ${sayHouseKind(app.spotHouse)}` : pen;
    return pen === app.pen
      ? [
          ['▸ ', 'text'],
          [words, 'strong'],
        ]
      : [[`  ${pen}`, 'dim']];
  });
  return [[['pen', 'dim']], ...lines];
}

function tagLines(app: App): PanelLine[] {
  if (app.mode.kind !== 'tag') return [];
  const { tag } = app.mode;
  return [
    [
      ['tag    ', 'dim'],
      [tag, tagRole(tag)],
    ],
  ];
}

function pasteLines(app: App, width: number): PanelLine[] {
  const { mode } = app;
  if (mode.kind !== 'paste') return [];
  const { grid } = mode.grids[mode.index];
  const givens = grid.givens.filter((digit) => digit !== 0).length;
  const marked = (grid.marks ?? []).filter((mask) => mask !== 0).length;
  const lines: PanelLine[] = [
    [['Pasted', 'strong']],
    [[plural(givens, 'given'), 'dim']],
    [[saySolutions(mode.solutions) ?? '', 'dim']],
    ...(marked > 0 ? hanging(null, 0, `${plural(marked, 'cell')} with marks`, width, 'dim') : []),
    blankLine,
  ];
  if (mode.grids.length > 1) {
    lines.push([[`Grid ${mode.index + 1} of ${mode.grids.length}`, 'text']], blankLine);
  }
  for (const text of app.message) lines.push(...hanging(null, 0, text, width), blankLine);
  lines.push(keyLine(keyOf(app, 'open'), 'opens it'));
  if (mode.grids.length > 1) lines.push(keyLine(keyOf(app, 'next-grid'), 'next grid'));
  lines.push(keyLine(keyOf(app, 'leave'), 'leaves it'));
  return lines;
}

/** Lines padded with blank ones to a count, so that what follows stays where it is. */
const padded = (lines: readonly PanelLine[], count: number): PanelLine[] =>
  lines.length >= count
    ? [...lines]
    : [...lines, ...Array.from({ length: count - lines.length }, () => blankLine)];

/** How a side panel is used. */
export interface PanelUse {
  readonly width: number;
  /** Whether the message does not fit into its line and stands here. */
  readonly longMessage: boolean;
  /** Whether marks are drawn in the grid beside it; else it tells them, and counts what is placed. */
  readonly showsMarks: boolean;
}

/** What the side panel says. */
export function panelLines(app: App, { width, longMessage, showsMarks }: PanelUse): PanelLine[] {
  if (app.mode.kind === 'paste') return pasteLines(app, width);
  if (app.hint) return hintLines(app, width);
  const argued = arguedOf(app);
  if (argued && !longMessage) return arguedLines(app, argued, width);
  if (shownOf(app) && !longMessage) return seriesLines(app, width);
  const title = padded(titleLines(app, width, showsMarks), 5);
  if (longMessage) {
    return [...title, ...app.message.flatMap((text) => [...hanging(null, 0, text, width), blankLine])];
  }
  if (app.slips.length > 0) return [...title, ...slipLines(app, width)];
  const { state } = app.sheet;
  if (isSolved(state)) return [...title, [['Solved.', 'strong']]];
  const about = app.found === null ? cellLines(app, width, showsMarks) : foundLines(app, width);
  const bivalue: PanelLine[] = app.showBivalue ? [row('two', plural(bivalueCount(app), 'cell'))] : [];
  const picked: PanelLine[] = app.picked.size > 0 ? [row('picked', plural(app.picked.size, 'cell'))] : [];
  const facts = [...about, ...tagLines(app), ...bivalue, ...picked, blankLine];
  return [...title, ...padded(facts, 6), ...penLines(app)];
}

function bivalueCount(app: App): number {
  const { candidates, placed } = knownPosition(app.sheet.state);
  return placed.reduce(
    (sum, digit, cell) => (digit === 0 && countDigits(candidates.digitsAt(cell)) === 2 ? sum + 1 : sum),
    0,
  );
}

const plainly = ({ sign, text }: HintLine): string => (sign === '' ? text : `${sign} ${text}`);

function sayMarksNeed(app: App): string {
  const { columns, rows } = sizeForMarks(app.sheet.state.layout);
  return `Marks need ${columns} x ${rows}.`;
}

/** The same in pieces, for the message line of terminals without a panel. */
export function briefly(app: App, isTiny: boolean): string[] {
  const thinking = sayThinking(app);
  const rung = rungOf(app);
  if (rung) {
    const said = rung.lines.map(plainly);
    const lacks = isTiny && rung.drawing.candidates.length > 0 ? [sayMarksNeed(app)] : [];
    return [
      `${rung.rung}: ${said[0] ?? ''}`,
      ...said.slice(1),
      ...lacks,
      ...(thinking === null ? [] : [thinking]),
    ];
  }
  if (app.message.length > 0) return [...app.message];
  if (thinking !== null) return [thinking];
  const argued = arguedOf(app);
  if (argued) {
    const { headline, lines } = argued.answer;
    return [headline, ...lines.map(plainly)];
  }
  const shown = shownOf(app);
  const { series } = app;
  if (shown && series) {
    const count = `${series.at + 1} of ${series.shown.length}`;
    return [`${series.title}, ${count}: ${shown.headline}`, ...shown.lines.map(plainly)];
  }
  const out = wayOut(app);
  return [...app.slips.map(({ text }) => `! ${text}`), ...(out ? [`${out.key} ${out.words}.`] : [])];
}
