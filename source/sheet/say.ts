import { factName, factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { sayPlace } from '../argument/words.ts';
import { digitsIn } from '../grid/candidates.ts';
import { type Cell, candidateOf, type DigitMask, type Layout } from '../grid/layout.ts';
import { cellName, digitName, placementName, strikeName } from '../grid/names.ts';
import type { SheetEvent } from './state.ts';

const digits = (mask: DigitMask): string => digitsIn(mask).map(digitName).join(' ');

function spots(layout: Layout, fact: Fact, cells: readonly Cell[]): string {
  const parts = factParts(layout, fact);
  const digit = parts.kind === 'house' ? parts.digit : 1;
  const places = cells.map((cell) => sayPlace(layout, fact, candidateOf(layout, cell, digit)));
  return [factName(layout, fact), ...places].join(' ');
}

const most = 3;
const several = (names: readonly string[], noun: string): string =>
  names.length <= most ? names.join(' ') : `${names.length} ${noun}`;

/** A move in a few words, such as `r7c4=4`, `note r4c8 3 6 8` or `all candidates`. Shows no text from outside. */
export function sayEvent(layout: Layout, event: SheetEvent): string {
  switch (event.kind) {
    case 'ink':
      return placementName(layout, event.cell * layout.size + event.digit - 1);
    case 'ink-all':
      return several(
        event.candidates.map((c) => placementName(layout, c)),
        'placements',
      );
    case 'note':
      return `note ${cellName(layout, event.cell)} ${digits(event.digits)}`;
    case 'set-note':
      return event.digits === 0
        ? `no note ${cellName(layout, event.cell)}`
        : `note ${cellName(layout, event.cell)} ${digits(event.digits)}`;
    case 'spot':
      return spots(layout, event.fact, [event.cell]);
    case 'set-spots':
      return event.cells.length === 0
        ? `no spots ${factName(layout, event.fact)}`
        : spots(layout, event.fact, event.cells);
    case 'strike':
      return several(
        event.candidates.map((c) => strikeName(layout, c)),
        'strikes',
      );
    case 'take': {
      const placements = event.placements.map((c) => placementName(layout, c));
      const strikes = event.strikes.map((c) => strikeName(layout, c));
      return [several(placements, 'placements'), several(strikes, 'strikes')]
        .filter((words) => words !== '')
        .join(', ');
    }
    case 'erase':
      return `erase ${cellName(layout, event.cell)}`;
    case 'fill':
      return 'all candidates';
    case 'tag': {
      const cell = cellName(layout, Math.floor(event.candidate / layout.size));
      const digit = digitName((event.candidate % layout.size) + 1);
      return event.tag === null ? `no tag ${cell} ${digit}` : `tag ${event.tag} ${cell} ${digit}`;
    }
    case 'several':
      return event.events.length <= most
        ? event.events.map((each) => sayEvent(layout, each)).join(', ')
        : `${event.events.length} changes at once`;
    case 'restart':
      return 'restart';
    case 'lock':
      return 'locking the givens';
    case 'open':
      return 'opening another grid';
  }
}
