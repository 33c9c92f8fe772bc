import { CandidateSet } from '../grid/candidates.ts';
import type { Layout } from '../grid/layout.ts';
import { readWritten, type WrittenLayout, writeLayout } from '../grid/layout-text.ts';
import { type SheetState, type TagLetter, tagLetters } from '../sheet/state.ts';

/** A state as plain data: what JSON can hold. Without its name, which only opening a grid changes. */
export interface WrittenState {
  readonly layout: WrittenLayout;
  readonly givens: readonly number[];
  readonly ink: readonly number[];
  /** One digit mask a cell. */
  readonly strikes: readonly number[];
  readonly notes: readonly number[];
  readonly spots: readonly (readonly [fact: number, cells: readonly number[]])[];
  readonly claimed: readonly number[];
  readonly inHand: number | null;
  readonly tags: readonly (readonly [candidate: number, letter: TagLetter])[];
}

export const writeState = (state: SheetState): WrittenState => ({
  layout: writeLayout(state.layout),
  givens: state.givens,
  ink: state.ink,
  strikes: [...state.strikes.toMasks()],
  notes: state.notes,
  spots: [...state.spots],
  claimed: [...state.claimed],
  inHand: state.inHand,
  tags: [...state.tags],
});

type Fields = Readonly<Record<string, unknown>>;
/** A JSON object. */
export const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A whole number from 0 up to, not including, the limit. */
const isBelow = (limit: number, value: unknown): value is number =>
  typeof value === 'number' && Number.isInteger(value) && value >= 0 && value < limit;
const areBelow = (limit: number, value: unknown): value is readonly number[] =>
  Array.isArray(value) && value.every((each) => isBelow(limit, each));

/** A layout as it was written, not yet read. */
export const isWrittenLayout = (value: unknown): value is WrittenLayout =>
  isFields(value) && typeof value.name === 'string' && typeof value.text === 'string';

/** A state from what JSON said, still without its name; null where it is none. `like`: the layout that it is most likely on. */
export function readState(value: unknown, like: Layout): SheetState | null {
  if (!isFields(value) || !isWrittenLayout(value.layout)) return null;
  const layout = readWritten(value.layout, like);
  if (!layout) return null;
  const { cellCount, size, allDigits } = layout;
  const facts = cellCount + layout.houses.length * size;
  const ofCells = (limit: number, list: unknown): list is readonly number[] =>
    areBelow(limit, list) && list.length === cellCount;
  const { givens, ink, strikes, notes, spots, claimed, inHand, tags } = value;
  if (!ofCells(size + 1, givens) || !ofCells(size + 1, ink)) return null;
  if (!ofCells(allDigits + 1, strikes) || !ofCells(allDigits + 1, notes)) return null;
  if (!areBelow(facts, claimed) || !(inHand === null || isBelow(facts, inHand))) return null;
  const isSpot = (spot: unknown): spot is [number, number[]] =>
    Array.isArray(spot) && spot.length === 2 && isBelow(facts, spot[0]) && areBelow(cellCount, spot[1]);
  const isTag = (tag: unknown): tag is [number, TagLetter] =>
    Array.isArray(tag) &&
    tag.length === 2 &&
    isBelow(cellCount * size, tag[0]) &&
    tagLetters.some((letter) => letter === tag[1]);
  if (!Array.isArray(spots) || !spots.every(isSpot)) return null;
  if (!Array.isArray(tags) || !tags.every(isTag)) return null;
  return {
    layout,
    name: '',
    givens,
    ink,
    strikes: CandidateSet.fromMasks(layout, strikes),
    notes,
    spots: new Map(spots),
    claimed: new Set(claimed),
    inHand,
    tags: new Map(tags),
  };
}
