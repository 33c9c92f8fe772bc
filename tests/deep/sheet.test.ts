import fc from 'fast-check';
import { expect, test } from 'vitest';
import { withClaims } from '../../source/argument/claim.ts';
import { decide } from '../../source/exact/solve.ts';
import { plain } from '../../source/grid/layout.ts';
import { positionOf } from '../../source/sheet/marks.ts';
import { parseMoves } from '../../source/sheet/moves.ts';
import { undo } from '../../source/sheet/sheet.ts';
import { slipsOf } from '../../source/sheet/slips.ts';
import { claimsOf } from '../../source/sheet/view.ts';
import { act, anyAction, crook, seed, sheetOf, small } from '../sheet/fixture.ts';
import { agrees, allSmall, hasSlip } from '../sheet/oracle.ts';

const deep = Number(process.env.INKLING_DEEP ?? 1);
console.log(`deep/sheet.test.ts: seed ${seed}, INKLING_DEEP ${deep}`);
const minutes = 60_000 * 10 * deep;

test('4x4: no grid agrees with a sheet that has a slip, and the way back is the right one', {
  timeout: minutes,
}, () => {
  const grids = allSmall();
  let met = 0;
  fc.assert(
    fc.property(fc.array(anyAction(small), { minLength: 40, maxLength: 40 }), (actions) => {
      let sheet = sheetOf('1...........2..3', small);
      for (const action of actions) {
        sheet = act(sheet, action);
        const slips = slipsOf(sheet);
        if (slips.length === 0) continue;
        met += 1;
        if (grids.some((grid) => agrees(sheet.state, grid))) throw new Error(slips[0].text);
        for (const slip of slips.filter(({ undoSteps }) => undoSteps > 0)) {
          const { event } = sheet.past[sheet.past.length - slip.undoSteps];
          const gone = event.kind === 'open' || !hasSlip(undo(sheet, slip.undoSteps).state, slip);
          const there = hasSlip(undo(sheet, slip.undoSteps - 1).state, slip);
          if (!there || !gone) throw new Error(`${slip.text} ${slip.undoSteps}`);
        }
      }
    }),
    { numRuns: Math.ceil(500 * deep), seed },
  );
  expect(met).toBeGreaterThan(1000 * deep);
});

test('9x9: a sheet with a slip has no completion', { timeout: minutes }, () => {
  let met = 0;
  fc.assert(
    fc.property(fc.array(anyAction(plain), { minLength: 60, maxLength: 60 }), (actions) => {
      let sheet = sheetOf(crook);
      for (const action of actions) {
        sheet = act(sheet, action);
        const slips = slipsOf(sheet);
        if (slips.length === 0) continue;
        met += 1;
        const position = withClaims(positionOf(sheet.state), claimsOf(sheet.state));
        if (decide(position).verdict !== 'none') throw new Error(slips[0].text);
      }
    }),
    { numRuns: Math.ceil(200 * deep), seed },
  );
  expect(met).toBeGreaterThan(1000 * deep);
});

test('200,000 texts through the typed line: moves or an error, never a throw', { timeout: minutes }, () => {
  const pieces = [
    'r4c7',
    '=',
    '<>',
    '≠',
    ':',
    '-',
    ',',
    ';',
    ' ',
    '@',
    'b2',
    'c2',
    'r3',
    '5',
    '16',
    'x',
    '\u001b',
  ];
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 60 }),
    fc.array(fc.constantFrom(...pieces), { maxLength: 20 }).map((parts) => parts.join('')),
  );
  let read = 0;
  fc.assert(
    fc.property(text, (line) => {
      if (parseMoves(line, plain).ok) read += 1;
    }),
    { numRuns: Math.ceil(200_000 * deep), seed },
  );
  expect(read).toBeGreaterThan(100 * deep);
});
