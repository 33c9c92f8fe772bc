import type { Layout } from '../grid/layout.ts';
import { tagLetters } from '../sheet/state.ts';
import type { Change } from './changes.ts';
import { isFields, isWrittenLayout, readState } from './state-text.ts';

/** A change that is all plain data. */
type PlainChange = Exclude<Change, { kind: 'state' }>;

const isWhole = (value: unknown): value is number =>
  typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;
const areWhole = (value: unknown): value is readonly number[] => Array.isArray(value) && value.every(isWhole);
const isText = (value: unknown): value is string => typeof value === 'string';

/** What is no part of a step of several: steps through the history, names, and steps of several themselves. */
const noParts: readonly unknown[] = ['undo', 'redo', 'name', 'several'];
const isPart = (value: unknown): boolean =>
  isFields(value) && !noParts.includes(value.kind) && isChange(value);

/** Whether a value has all fields of a change of its kind; whether these fit the sheet is for the sheet to say. */
function isChange(fields: object): fields is PlainChange {
  const value = fields as Readonly<Record<string, unknown>>;
  const kind = value.kind as PlainChange['kind'];
  switch (kind) {
    case 'ink':
      return isWhole(value.cell) && isWhole(value.digit);
    case 'ink-all':
    case 'strike':
      return areWhole(value.candidates);
    case 'note':
    case 'set-note':
      return isWhole(value.cell) && isWhole(value.digits);
    case 'spot':
      return isWhole(value.fact) && isWhole(value.cell);
    case 'set-spots':
      return isWhole(value.fact) && areWhole(value.cells);
    case 'take':
      return areWhole(value.placements) && areWhole(value.strikes);
    case 'erase':
      return isWhole(value.cell);
    case 'tag':
      return (
        isWhole(value.candidate) && (value.tag === null || tagLetters.some((letter) => letter === value.tag))
      );
    case 'several':
      return Array.isArray(value.events) && value.events.every(isPart);
    case 'fill':
    case 'restart':
    case 'lock':
      return true;
    case 'open':
      return (
        isWrittenLayout(value.layout) && isText(value.name) && areWhole(value.givens) && areWhole(value.notes)
      );
    case 'undo':
    case 'redo':
      return isWhole(value.steps) && value.steps > 0;
    case 'name':
      return isText(value.name);
    default:
      // A kind that does not exist: every one that does is dealt with above.
      kind satisfies never;
      return false;
  }
}

/** A change from the body of a record; null where it is none. `like`: the layout that the sheet is on. */
export function parseChange(body: string, like: Layout): Change | null {
  let value: unknown;
  try {
    value = JSON.parse(body);
  } catch {
    return null;
  }
  if (!isFields(value)) return null;
  if (value.kind === 'state') {
    const state = readState(value.state, like);
    return state && { kind: 'state', state };
  }
  return isChange(value) ? value : null;
}
