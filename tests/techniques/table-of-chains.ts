import { type Row, row } from './table-row.ts';

/** An open grid in which all cells have two digits but one: technique-fixtures.json of the published checks, BUG+1-1. */
const bugPlaced = '.3...9.4.9628.45.1.7..5..9.283497615.41.68.2.69.12.8.432..4.18.85.9...62.1..82.53';
const bugOpen =
  'r1c1:15 r1c3:58 r1c4:26 r1c5:17 r1c7:27 r1c9:68 r2c5:37 r2c8:37 r3c1:14 r3c3:48 r3c4:23 r3c6:16 r3c7:23 r3c9:68 r5c1:57 r5c4:35 r5c7:39 r5c9:79 r6c3:57 r6c6:35 r6c8:37 r7c3:69 r7c4:567 r7c6:56 r7c9:79 r8c3:47 r8c5:13 r8c6:13 r8c7:47 r9c1:47 r9c3:69 r9c4:67 r9c7:49';
const bug = [
  ...Array.from(bugPlaced, (sign, cell) =>
    sign === '.' ? '' : `r${Math.floor(cell / 9) + 1}c${(cell % 9) + 1}=${sign}`,
  ),
  bugOpen,
].join(' ');

/** Rows of the table for chains, almost locked sets, forcing and one solution; see table.ts. */
export const chainRows: readonly Row[] = [
  row(
    'alternating-inference-chain',
    'two places of a box stand as one, and another chain of the same box',
    '1@r1:r1c2,r1c9 1@b9:r8c9,r9c9,r7c7 1@c4:r7c4,r3c4',
    '1@r1 1@b9 1@c4: r3c1-3<>1',
  ),
  row(
    'alternating-inference-chain',
    'the two places of the box do not stand together',
    '1@r1:r1c2,r1c9 1@b9:r8c9,r9c8,r7c7 1@c4:r7c4,r3c4',
  ),
  row(
    'alternating-inference-chain',
    'a column, then two cells: outer ends of two digits',
    '1@c1:r1c1,r6c1 r6c5:12 r1c5:23',
    '1@c1 r6c5 r1c5: r1c1<>3',
  ),
  row('alternating-inference-chain', 'a cell of three digits on the way', '1@c1:r1c1,r6c1 r6c5:123 r1c5:23'),
  row(
    'alternating-inference-chain',
    'it closes: every two neighbours share a digit out',
    '1@c1:r1c1,r6c1 r6c5:12 r1c5:12',
    '1@c1 r6c5 r1c5: r1c2-4<>1 r1c6-9<>1 r6c2-4<>1 r6c6-9<>1',
  ),
  row('alternating-inference-chain', 'cells alone are an XY-chain', 'r1c1:12 r1c5:23 r6c5:34 r6c9:14'),
  row(
    'alternating-inference-chain',
    'a single digit with two places each is an X-chain',
    '1@r1:r1c1,r1c6 1@c6:r4c6,r9c6 1@r4:r4c2,r4c8',
  ),

  row(
    'als-xz',
    'a set of three cells in a column, and one cell',
    'r5c1:12 r5c2:23 r2c1:14 r3c1:34',
    'r5c2 r2c1 r3c1 r5c1: r1-3c2<>3 r4c1<>3 r6c1<>3',
  ),
  row(
    'als-xz',
    'two sets of two cells in rows, tied in a column',
    'r1c1:12 r1c5:23 r4c1:14 r4c6:34',
    'r1c1 r1c5 r4c1 r4c6: r1-3c6<>3 r4-6c5<>3',
  ),
  row(
    'als-xz',
    'two ties: both sets keep all their other digits',
    'r1c1:13 r1c5:23 r6c1:14 r6c5:24',
    'r1c1 r1c5 r6c1 r6c5: r1c2-4<>3 r1c6-9<>3 r2-5c1<>1 r2-5c5<>2 r6c2-4<>4 r6c6-9<>4 r7-9c1<>1 r7-9c5<>2',
  ),
  row('als-xz', 'a digit too many in one of the sets', 'r5c1:12 r5c2:23 r2c1:15 r3c1:45'),
  row(
    'als-xz',
    'no tie: the places of each shared digit do not all see each other',
    'r5c1:12 r5c2:23 r2c4:14 r3c4:34',
  ),
  row('als-xz', 'three cells of one house are a triple', 'r1c1:12 r1c2:23 r1c3:13'),

  row(
    'als-xy-wing',
    'sets in a row, in a row and of one cell',
    'r1c2:123 r1c7:12 r5c2:34 r5c9:45 r8c9:15',
    'r1c2 r1c7 r5c2 r5c9 r8c9: r1c9<>1',
  ),
  row(
    'als-xy-wing',
    'the outer sets share nothing beyond the ties',
    'r1c2:123 r1c7:12 r5c2:34 r5c9:45 r8c9:16',
  ),
  row('als-xy-wing', 'three cells of two digits are an XY-wing', 'r1c2:13 r5c2:34 r5c9:14'),

  row(
    'als-chain',
    'a set of two cells and cells of two digits',
    'r1c2:123 r1c7:12 r5c2:34 r5c6:45 r8c6:56 r8c9:16',
    'r1c2 r1c7 r5c2 r5c6 r8c6 r8c9: r1c9<>1',
  ),
  row(
    'als-chain',
    'the outer sets share nothing beyond the ties',
    'r1c2:123 r1c7:12 r5c2:34 r5c6:45 r8c6:56 r8c9:67',
  ),
  row('als-chain', 'four cells of two digits are an XY-chain', 'r1c2:13 r5c2:34 r5c6:45 r8c6:15'),

  row(
    'two-sector-disjoint-subsets',
    'two shared cells, one more in the row and one in the box',
    'r1c1:1234 r1c2:1234 r1c7:12 r2c3:34',
    'r1c1 r1c2 r1c7 r2c3: r1c3<>1234 r1c4-6<>12 r1c8-9<>12 r2c1-2<>34 r3c1-3<>34',
  ),
  row(
    'two-sector-disjoint-subsets',
    'two cells in the box',
    'r1c1:12345 r1c2:12345 r1c7:12 r2c3:345 r3c3:345',
    'r1c1 r1c2 r1c7 r2c3 r3c3: r1c3<>12345 r1c4-6<>12 r1c8-9<>12 r2c1-2<>345 r3c1-2<>345',
  ),
  row('two-sector-disjoint-subsets', 'a fifth digit', 'r1c1:1234 r1c2:1234 r1c7:12 r2c3:35'),
  row(
    'two-sector-disjoint-subsets',
    'a digit in the row and in the box may be there twice',
    'r1c1:1234 r1c2:1234 r1c7:12 r2c3:24',
  ),
  row('two-sector-disjoint-subsets', 'cells of one house are a quad', 'r1c1:1234 r1c2:1234 r1c7:12 r1c8:34'),

  row(
    'unique-rectangle',
    'one corner has other digits',
    'r1c1:12 r1c4:12 r2c1:12 r2c4:1234',
    'r1c1 r1c4 r2c1 r2c4: r2c4<>12',
  ),
  row(
    'unique-rectangle',
    'two corners have the same other digit',
    'r1c1:12 r2c1:12 r1c4:123 r2c4:123',
    'r1c1 r1c4 r2c1 r2c4: r1-3c5<>3 r1-3c6<>3 r3-9c4<>3',
  ),
  row(
    'unique-rectangle',
    'a digit has no place in a column but two corners',
    'r1c1:12 r2c1:12 r1c4:1234 r2c4:1256 1@c4:r1c4,r2c4',
    'r1c1 r1c4 r2c1 r2c4 1@c4: r1-2c4<>2',
  ),
  row(
    'unique-rectangle',
    'the other digits make a pair with a cell',
    'r1c1:12 r2c1:12 r1c4:123 r2c4:124 r5c4:34',
    'r1c1 r1c4 r2c1 r2c4 r5c4: r3-4c4<>34 r6-9c4<>34',
  ),
  row(
    'unique-rectangle',
    'the other digits make a triple with two cells',
    'r1c1:12 r2c1:12 r1c4:123 r2c4:124 r5c4:35 r8c4:45',
    'r1c1 r1c4 r2c1 r2c4 r5c4 r8c4: r3-4c4<>345 r6-7c4<>345 r9c4<>345',
  ),
  row('unique-rectangle', 'four boxes: other digits may stand there', 'r1c1:12 r4c1:12 r1c4:12 r4c4:1234'),
  row('unique-rectangle', 'a corner is given', 'r1c1:12 r2c1=1 r1c4:12 r2c4:1234'),
  row('unique-rectangle', 'one digit is struck from a corner', 'r1c1:12 r1c4:12 r2c1:12 r2c4:134'),
  row(
    'unique-rectangle',
    'three corners have each an other digit of its own',
    'r1c1:12 r2c1:124 r1c4:125 r2c4:126',
  ),
  row('unique-rectangle', 'no corner has but the two digits', 'r1c1:123 r2c1:123 r1c4:123 r2c4:123'),

  row('bug-plus-one', 'one cell has a third digit', bug, 'r7c4: r7c4=6'),
  row('bug-plus-one', 'the third digit is struck: nothing is odd', `${bug} r7c4<>6`),
  row('bug-plus-one', 'another digit of that cell is struck: the rest does not pair up', `${bug} r7c4<>7`),

  row('cell-forcing', 'an XY-wing from its pivot', 'r1c1:12 r1c5:13 r5c1:23', 'r1c1 r1c5 r5c1: r5c5<>3'),
  row(
    'cell-forcing',
    'three digits, one of them by way of two cells',
    'r1c1:123 r1c5:14 r5c1:24 r3c3:35 r3c5:45',
    'r1c1 r1c5 r5c1 r3c3 r3c5: r5c5<>4',
  ),
  row('cell-forcing', 'one of the digits leads elsewhere', 'r1c1:123 r1c5:14 r5c1:24 r3c3:35 r3c5:46'),

  row(
    'house-forcing',
    'a digit of three places in a row',
    '1@r1:r1c1,r1c4,r1c7 r4c1:12 r4c9:24 r8c4:13 r8c9:34 r9c7:14',
    '1@r1 r4c1 r4c9 r8c4 r8c9 r9c7: r2-7c4<>1 r7c9<>4 r8c1<>13 r8c2-3<>3 r8c5-6<>3 r8c7-8<>13 r9c4-6<>1 r9c9<>4',
  ),
  row(
    'house-forcing',
    'one of the places leads elsewhere',
    '1@r1:r1c1,r1c4,r1c7 r4c1:12 r4c9:24 r8c4:13 r8c9:34 r9c7:15',
  ),

  row(
    'net',
    'two singles follow and leave a cell nothing',
    '1@c1:r1c1,r6c1 r6c5:12 r1c5:23',
    'r1c5 r6c5 1@c1: r1c1<>3',
  ),
  row(
    'net',
    'lines that part and meet again',
    '1@r1:r1c1,r1c4,r1c7 r4c1:12 r4c9:24 r8c4:13 r8c9:34 r9c7:14',
    'r4c1 r4c9 r8c4 r8c9 r9c7 1@r1: r2-3c4<>1 r5-7c4<>1 r7c9<>4 r8c1-3<>3 r8c5-8<>3 r9c9<>4',
    'r4c1 r4c9 r8c4 r8c9: r4c4<>1 r8c1<>1',
    'r8c4 r8c9 r9c7: r8c7-8<>1 r9c4-6<>1',
  ),
  row('net', 'no single follows', 'r1c1:123 r1c2:123 r1c3:123 r1c9:14'),

  row(
    'nested-suppositions',
    'no single follows, and all cases fail',
    'r1c1:123 r1c2:123 r1c3:123 r1c9:14',
    'r1c1 r1c2 r1c3: r1c9<>1',
  ),
  row('nested-suppositions', 'a case does not fail', 'r1c1:123 r1c2:123 r1c3:1235 r1c9:14'),
  row('nested-suppositions', 'where singles lead to the end it is a net', 'r1c1:12 r1c5:13 r5c1:23 r5c5:34'),
];
