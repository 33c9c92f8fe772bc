import { factParts, houseFact } from '../argument/fact.ts';
import { type Argument, placesOf } from '../argument/kernel.ts';
import { sayHouses, startSentence } from '../argument/words.ts';
import { digitName, sayHouse } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { lockedCandidates } from './locked-candidates.ts';
import { isLine } from './meetings.ts';
import type { Technique } from './technique.ts';

const plainly = lockedCandidates(
  'claiming',
  'Claiming',
  (from) => isLine(from),
  (digit, from, to, has) => `${from} has its ${digit} inside ${to}, so ${to} ${has} it nowhere else.`,
);

/** A line that has a digit only inside some box (or extra box): it claims the digit of that box. */
export const claiming: Technique = {
  ...plainly,
  phrase: (position, argument) =>
    sayByBoxes(position, argument) ?? plainly.phrase?.(position, argument) ?? null,
};

/**
 * The same told by the other boxes of the band, where these have the digit open in as many lines as they are:
 * they use these lines up, so the box that is left has the digit in the line that is left.
 */
function sayByBoxes(position: Position, { facts, conclusions }: Argument): string | null {
  const { layout, placed } = position;
  const parts = factParts(layout, facts[0]);
  if (facts.length !== 1 || parts.kind !== 'house' || conclusions.kind !== 'strikes') return null;
  const { house: line, digit } = parts;
  const places = placesOf(position, facts[0]);
  const boxes = layout.houses.filter(
    ({ kind, cells }) => kind === 'box' && cells.some((cell) => line.cells.includes(cell)),
  );
  const isIn = (cells: readonly number[]) =>
    [...places, ...conclusions.candidates].every((x) => cells.includes(Math.floor(x / layout.size)));
  const box = boxes.find(({ cells }) => isIn(cells));
  const others = boxes.filter((other) => other !== box);
  if (!box || others.length < 2 || line.kind === 'diagonal') return null;
  if (others.some(({ cells }) => cells.some((cell) => placed[cell] === digit))) return null;
  const used = others.map((other) => {
    const open = placesOf(position, houseFact(layout, other, digit)).map((x) => Math.floor(x / layout.size));
    return layout.houses.filter(
      ({ kind, cells }) => kind === line.kind && open.some((cell) => cells.includes(cell)),
    );
  });
  const lines = [...new Set(used.flat())].sort((a, b) => a.index - b.index);
  if (lines.length !== others.length || used.some((own) => own.length < 2) || lines.includes(line))
    return null;
  const sign = digitName(digit);
  return startSentence(
    `${sayHouses(others)} have their ${sign}s in ${sayHouses(lines)}, one in each, so ${sayHouse(box)} has its ${sign} in ${sayHouse(line)}.`,
  );
}
