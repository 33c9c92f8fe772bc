import { chainRows } from './table-of-chains.ts';
import { type Row, row } from './table-row.ts';

const rowOne = (upTo: number) => Array.from({ length: upTo }, (_, i) => `r1c${i + 1}=${i + 1}`).join(' ');

/**
 * What each technique finds, all of it, in small scenes (see notation.ts), near misses included: those find
 * nothing. The positions are our own; what a pattern is called is common practice, no source.
 */
export const table: readonly Row[] = [
  row('full-house', 'one open cell in a row', rowOne(8), '9@r1: r1c9=9'),
  row('full-house', 'two open cells', rowOne(7)),
  row('full-house', 'the missing digit is struck from the open cell', `${rowOne(8)} r1c9<>9`),
  row('full-house', 'a digit twice: what is missing is not one', `${rowOne(7)} r1c8=1`),
  row(
    'full-house',
    'one cell closes its row and its box',
    `${rowOne(8)} r2c7=4 r2c8=5 r2c9=6 r3c7=1 r3c8=2 r3c9=3`,
    '9@r1: r1c9=9',
    '9@b3: r1c9=9',
  ),

  row('hidden-single', 'one place in a row', '7@r3:r3c5', '7@r3: r3c5=7'),
  row('hidden-single', 'one place in a box', '7@b5:r4c4', '7@b5: r4c4=7'),
  row('hidden-single', 'two places', '7@r3:r3c5,r3c6'),
  row('hidden-single', 'it is placed already', 'r3c5=7'),
  row('hidden-single', 'a full house is told as one', rowOne(8)),
  row(
    'hidden-single',
    'four lines shut out a box, by placed digits',
    'r1c1=7 r2c4=7 r4c8=7 r7c9=7',
    '7@b3: r3c7=7',
    '7@r3: r3c7=7',
    '7@c7: r3c7=7',
  ),

  row('naked-single', 'one candidate', 'r4c8:6', 'r4c8: r4c8=6'),
  row('naked-single', 'two candidates', 'r4c8:16'),
  row('naked-single', 'it is placed already', 'r4c8=6'),
  row(
    'naked-single',
    'row, column and box have the others',
    'r1c2=1 r1c3=2 r1c4=3 r2c1=4 r4c1=5 r5c1=6 r3c3=7 r2c2=8',
    'r1c1: r1c1=9',
  ),

  row('pointing', 'a box points along a row', '7@b5:r4c4,r4c6', '7@b5: r4c1-3<>7 r4c7-9<>7'),
  row('pointing', 'a box points along a column', '7@b5:r4c4,r5c4,r6c4', '7@b5: r1-3c4<>7 r7-9c4<>7'),
  row('pointing', 'two lines', '7@b5:r4c4,r5c6'),
  row('pointing', 'a single place is a single', '7@b5:r4c4'),
  row('pointing', 'nothing is left to strike', '7@b5:r4c4,r4c6 7@r4:r4c4,r4c6'),
  row('pointing', 'a row in a box is claiming', '7@r4:r4c4,r4c6'),

  row('claiming', 'a row inside a box', '7@r4:r4c4,r4c6', '7@r4: r5-6c4-6<>7'),
  row('claiming', 'a column inside a box', '7@c9:r1c9,r2c9,r3c9', '7@c9: r1-3c7-8<>7'),
  row('claiming', 'two boxes', '7@r4:r4c4,r4c7'),
  row('claiming', 'a single place is a single', '7@r4:r4c4'),
  row('claiming', 'a box along a row is pointing', '7@b5:r4c4,r4c6'),
  row(
    'claiming',
    'two rows of a band leave the third: told by the boxes that have it in two rows only',
    '7@b1:r1c1,r2c2 7@b2:r1c5,r2c4,r2c6',
    '7@r3: r1-2c7-9<>7',
  ),

  row('naked-pair', 'in a row', 'r1c2:34 r1c8:34', 'r1c2 r1c8: r1c1<>34 r1c3-7<>34 r1c9<>34'),
  row(
    'naked-pair',
    'in a box but no line',
    'r1c1:34 r2c2:34',
    'r1c1 r2c2: r1c2-3<>34 r2c1<>34 r2c3<>34 r3c1-3<>34',
  ),
  row(
    'naked-pair',
    'in a row and a box at once, one instance',
    'r1c1:34 r1c2:34',
    'r1c1 r1c2: r1c3-9<>34 r2-3c1-3<>34',
  ),
  row('naked-pair', 'a third digit in one cell', 'r1c2:34 r1c8:345'),
  row('naked-pair', 'two different pairs', 'r1c2:34 r1c8:35'),
  row('naked-pair', 'the cells do not see each other', 'r1c2:34 r5c8:34'),
  row('naked-pair', 'a single in the pair is a single', 'r1c2:34 r1c8:3'),

  row('hidden-pair', 'in a row', '3@r1:r1c2,r1c8 4@r1:r1c2,r1c8', '3@r1 4@r1: r1c2<>1256789 r1c8<>1256789'),
  row('hidden-pair', 'in a box', '3@b1:r1c1,r2c2 4@b1:r1c1,r2c2', '3@b1 4@b1: r1c1<>1256789 r2c2<>1256789'),
  row('hidden-pair', 'a third place for one digit', '3@r1:r1c2,r1c8 4@r1:r1c2,r1c8,r1c9'),
  row('hidden-pair', 'the digits in two houses', '3@r1:r1c1,r1c2 4@b1:r1c1,r1c2'),
  row('hidden-pair', 'nothing else in the cells', '3@r1:r1c2,r1c8 4@r1:r1c2,r1c8 r1c2:34 r1c8:34'),
  row('hidden-pair', 'one place is a single', '3@r1:r1c2,r1c8 4@r1:r1c8'),

  row(
    'naked-triple',
    'two digits in each cell',
    'r1c2:34 r1c5:45 r1c8:35',
    'r1c2 r1c5 r1c8: r1c1<>345 r1c3-4<>345 r1c6-7<>345 r1c9<>345',
  ),
  row(
    'naked-triple',
    'all three in one cell',
    'r1c1:345 r2c2:35 r3c1:345',
    'r1c1 r2c2 r3c1: r1c2-3<>345 r2c1<>345 r2c3<>345 r3c2-3<>345',
  ),
  row('naked-triple', 'a fourth digit', 'r1c2:34 r1c5:45 r1c8:36'),
  row(
    'naked-triple',
    'with a pair inside',
    'r1c2:34 r1c5:34 r1c8:345',
    'r1c2 r1c5 r1c8: r1c1<>345 r1c3-4<>345 r1c6-7<>345 r1c9<>345',
  ),
  row('naked-triple', 'three cells for two digits cannot be', 'r1c2:34 r1c5:34 r1c8:34'),
  row('naked-triple', 'no house has all three cells', 'r1c2:34 r1c5:45 r2c8:35'),

  row(
    'hidden-triple',
    'two places a digit',
    '1@c4:r1c4,r5c4 2@c4:r5c4,r9c4 3@c4:r1c4,r9c4',
    '1@c4 2@c4 3@c4: r1c4<>456789 r5c4<>456789 r9c4<>456789',
  ),
  row('hidden-triple', 'a fourth place', '1@c4:r1c4,r5c4 2@c4:r5c4,r9c4 3@c4:r1c4,r8c4'),
  row(
    'hidden-triple',
    'with a pair inside',
    '1@c4:r1c4,r5c4 2@c4:r1c4,r5c4 3@c4:r1c4,r5c4,r9c4',
    '1@c4 2@c4 3@c4: r1c4<>456789 r5c4<>456789 r9c4<>456789',
  ),
  row(
    'hidden-triple',
    'three digits for two cells cannot be',
    '1@c4:r1c4,r5c4 2@c4:r1c4,r5c4 3@c4:r1c4,r5c4',
  ),

  row(
    'naked-quad',
    'four cells of a column',
    'r1c1:12 r3c1:23 r5c1:34 r7c1:14',
    'r1c1 r3c1 r5c1 r7c1: r2c1<>1234 r4c1<>1234 r6c1<>1234 r8-9c1<>1234',
  ),
  row('naked-quad', 'a fifth digit', 'r1c1:12 r3c1:23 r5c1:34 r7c1:15'),
  row(
    'naked-quad',
    'with a triple inside',
    'r1c1:12 r3c1:23 r5c1:13 r7c1:1234',
    'r1c1 r3c1 r5c1 r7c1: r2c1<>1234 r4c1<>1234 r6c1<>1234 r8-9c1<>1234',
  ),
  row('naked-quad', 'a triple and a single', 'r1c1:12 r3c1:23 r5c1:13 r7c1:4'),
  row(
    'naked-quad',
    'two pairs together',
    'r1c1:12 r3c1:12 r5c1:34 r7c1:34',
    'r1c1 r3c1 r5c1 r7c1: r2c1<>1234 r4c1<>1234 r6c1<>1234 r8-9c1<>1234',
  ),

  row(
    'hidden-quad',
    'four digits of a box',
    '1@b5:r4c4,r5c5 2@b5:r5c5,r6c6 3@b5:r6c6,r4c6 4@b5:r4c6,r4c4',
    '1@b5 2@b5 3@b5 4@b5: r4c4<>56789 r5c5<>56789 r6c6<>56789 r4c6<>56789',
  ),
  row('hidden-quad', 'a fifth place', '1@b5:r4c4,r5c5 2@b5:r5c5,r6c6 3@b5:r6c6,r4c6 4@b5:r4c6,r6c4'),

  row('x-wing', 'two columns', '1@c1:r2c1,r5c1 1@c9:r2c9,r5c9', '1@c1 1@c9: r2c2-8<>1 r5c2-8<>1'),
  row(
    'x-wing',
    'two rows',
    '1@r3:r3c2,r3c6 1@r8:r8c2,r8c6',
    '1@r3 1@r8: r1-2c2<>1 r4-7c2<>1 r9c2<>1 r1-2c6<>1 r4-7c6<>1 r9c6<>1',
  ),
  row(
    'x-wing',
    'two rows of one band: the boxes lose it too',
    '1@r1:r1c2,r1c6 1@r2:r2c2,r2c6',
    '1@r1 1@r2: r3-9c2<>1 r3-9c6<>1 r3c1<>1 r3c3<>1 r3c4-5<>1',
  ),
  row('x-wing', 'a third place in one column', '1@c1:r2c1,r5c1 1@c9:r2c9,r5c9,r8c9'),
  row('x-wing', 'the rows do not match', '1@c1:r2c1,r5c1 1@c9:r2c9,r6c9'),
  row('x-wing', 'two digits', '1@c1:r2c1,r5c1 2@c9:r2c9,r5c9'),
  row('x-wing', 'nothing is left to strike', '1@c1:r2c1,r5c1 1@c9:r2c9,r5c9 1@r2:r2c1,r2c9 1@r5:r5c1,r5c9'),
  row('x-wing', 'all in one box, which cannot be', '1@r1:r1c1,r1c2 1@r2:r2c1,r2c2'),

  row(
    'skyscraper',
    'two columns that share a row',
    '1@c2:r4c2,r9c2 1@c5:r5c5,r9c5',
    '1@c2 1@c5: r4c4<>1 r4c6<>1 r5c1<>1 r5c3<>1',
  ),
  row('skyscraper', 'no cell sees both tops', '1@c2:r1c2,r9c2 1@c5:r5c5,r9c5 r1c5<>1 r5c2<>1'),
  row('skyscraper', 'a third place in one column', '1@c2:r4c2,r6c2,r9c2 1@c5:r5c5,r9c5'),
  row('skyscraper', 'no shared row', '1@c2:r4c2,r9c2 1@c5:r5c5,r8c5'),
  row('skyscraper', 'both rows shared is an X-wing', '1@c2:r4c2,r9c2 1@c5:r4c5,r9c5'),

  row('two-string-kite', 'tied in box 1', '1@r2:r2c3,r2c7 1@c1:r1c1,r6c1', '1@r2 1@c1: r6c7<>1'),
  row(
    'two-string-kite',
    'the row has two places in the box of the struck cell',
    '1@r2:r2c3,r2c7,r2c8 1@c1:r1c1,r3c1,r7c1 1@r7:r7c1,r7c2,r7c5 1@c7:r1c7,r2c7,r3c7,r5c7 1@c8:r2c8,r4c8,r5c8',
  ),
  row(
    'two-string-kite',
    'two groups, tied in box 3',
    '1@r1:r1c1,r1c8,r1c9 1@c7:r2c7,r3c7,r5c7',
    '1@r1 1@c7: r5c1<>1',
  ),
  row('two-string-kite', 'not in one box', '1@r2:r2c4,r2c7 1@c1:r1c1,r6c1'),
  row('two-string-kite', 'they meet in one cell', '1@r2:r2c1,r2c7 1@c1:r2c1,r6c1'),
  row('two-string-kite', 'a third place far off', '1@r2:r2c3,r2c5,r2c7 1@c1:r1c1,r6c1'),
  row('two-string-kite', 'the far corner has lost it', '1@r2:r2c3,r2c7 1@c1:r1c1,r6c1 r6c7<>1'),

  row(
    'empty-rectangle',
    'a box with a row and a column of places',
    '1@b1:r1c1,r1c2,r3c3 1@c7:r1c7,r6c7',
    '1@b1 1@c7: r6c3<>1',
  ),
  row('empty-rectangle', 'places in another row too', '1@b1:r1c1,r2c2,r3c3 1@c7:r1c7,r6c7'),
  row('empty-rectangle', 'a third place in the column', '1@b1:r1c1,r1c2,r3c3 1@c7:r1c7,r6c7,r8c7'),
  row('empty-rectangle', 'neither end sees the box', '1@b1:r1c1,r1c2,r3c3 1@c7:r5c7,r6c7'),

  row('finned-x-wing', 'one fin', '1@r4:r4c2,r4c8 1@r6:r6c2,r6c7,r6c8', '1@r4 1@r6: r5c7-9<>1'),
  row(
    'finned-x-wing',
    'two fins, the corner gone (sashimi)',
    '1@r2:r2c2,r2c8 1@r6:r6c2,r6c7,r6c9',
    '1@r2 1@r6: r4-5c8<>1',
  ),
  row('finned-x-wing', 'a fin in another box', '1@r2:r2c2,r2c8 1@r6:r6c2,r6c5,r6c8'),
  row('finned-x-wing', 'fins in two boxes', '1@r2:r2c2,r2c8 1@r6:r6c1,r6c2,r6c7,r6c8'),
  row('finned-x-wing', 'no fin is an X-wing', '1@r2:r2c2,r2c8 1@r6:r6c2,r6c8'),

  row(
    'swordfish',
    'two places a row',
    '1@r1:r1c1,r1c5 1@r4:r4c5,r4c9 1@r7:r7c1,r7c9',
    '1@r1 1@r4 1@r7: r2-3c1<>1 r5-6c1<>1 r8-9c1<>1 r2-3c5<>1 r5-6c5<>1 r8-9c5<>1 r2-3c9<>1 r5-6c9<>1 r8-9c9<>1',
  ),
  row('swordfish', 'a fourth column', '1@r1:r1c1,r1c5 1@r4:r4c5,r4c9 1@r7:r7c1,r7c8'),
  row(
    'swordfish',
    'with an X-wing inside',
    '1@r1:r1c1,r1c5 1@r4:r4c1,r4c5 1@r7:r7c1,r7c5,r7c9',
    '1@r1 1@r4 1@r7: r2-3c1<>1 r5-6c1<>1 r8-9c1<>1 r2-3c5<>1 r5-6c5<>1 r8-9c5<>1 r2-3c9<>1 r5-6c9<>1 r8-9c9<>1 r8-9c7-8<>1',
  ),
  row('swordfish', 'three rows for two columns cannot be', '1@r1:r1c1,r1c5 1@r4:r4c1,r4c5 1@r7:r7c1,r7c5'),
  row(
    'finned-swordfish',
    'one fin',
    '1@r1:r1c1,r1c5 1@r4:r4c5,r4c9 1@r7:r7c1,r7c8,r7c9',
    '1@r1 1@r4 1@r7: r8-9c9<>1',
  ),
  row('finned-swordfish', 'fins in two boxes', '1@r1:r1c1,r1c5 1@r4:r4c5,r4c9 1@r7:r7c1,r7c2,r7c4,r7c9'),
  row(
    'jellyfish',
    'two places a column',
    '1@c1:r1c1,r3c1 1@c3:r3c3,r5c3 1@c5:r5c5,r8c5 1@c9:r8c9,r1c9',
    '1@c1 1@c3 1@c5 1@c9: r1-3c2<>1 r1c4<>1 r1c6-8<>1 r3c4<>1 r3c6-8<>1 r5c2<>1 r5c4<>1 r5c6-8<>1 r8c2<>1 r8c4<>1 r8c6-8<>1',
  ),
  row('jellyfish', 'a fifth row', '1@c1:r1c1,r3c1 1@c3:r3c3,r5c3 1@c5:r5c5,r8c5 1@c9:r8c9,r2c9'),

  row('xy-wing', 'a cell that sees both wings', 'r5c5:12 r5c1:13 r1c5:23', 'r5c5 r5c1 r1c5: r1c1<>3'),
  row(
    'xy-wing',
    'a wing in the box of the pivot',
    'r5c5:12 r4c4:13 r5c9:23',
    'r5c5 r4c4 r5c9: r4c7-9<>3 r5c4<>3 r5c6<>3',
  ),
  row('xy-wing', 'the wings share no digit', 'r5c5:12 r5c1:13 r1c5:24'),
  row('xy-wing', 'a wing that the pivot does not see', 'r5c5:12 r6c1:13 r1c5:23'),
  row('xy-wing', 'three cells of one house are a triple', 'r5c5:12 r5c1:13 r5c9:23'),
  row('xy-wing', 'a pivot of three digits is an XYZ-wing', 'r5c5:123 r5c1:13 r1c5:23'),

  row('xyz-wing', 'cells that see all three', 'r5c5:123 r4c4:13 r5c9:23', 'r5c5 r4c4 r5c9: r5c4<>3 r5c6<>3'),
  row('xyz-wing', 'no cell sees all three', 'r5c5:123 r5c1:13 r1c5:23'),
  row('xyz-wing', 'a fourth digit', 'r5c5:123 r4c4:13 r5c9:24'),
  row('xyz-wing', 'a pivot of two digits is an XY-wing', 'r5c5:12 r4c4:13 r5c9:23'),

  row('w-wing', 'a row between them', 'r2c1:12 r5c9:12 1@r8:r8c1,r8c9', 'r2c1 r5c9 1@r8: r2c9<>2 r5c1<>2'),
  row(
    'w-wing',
    'a box between them, two places seen by one cell',
    'r2c1:12 r7c9:12 1@b7:r8c1,r9c1,r7c2',
    'r2c1 r7c9 1@b7: r2c9<>2 r7c1<>2',
  ),
  row('w-wing', 'a third place in the row', 'r2c1:12 r5c9:12 1@r8:r8c1,r8c5,r8c9'),
  row('w-wing', 'two different pairs', 'r2c1:12 r5c9:13 1@r8:r8c1,r8c9'),
  row('w-wing', 'cells that see each other are a pair', 'r2c1:12 r2c9:12 1@r8:r8c1,r8c9'),

  row(
    'remote-pairs',
    'four cells',
    'r1c1:12 r1c5:12 r6c5:12 r6c9:12',
    'r1c1 r1c5 r6c5 r6c9: r1c9<>12 r6c1<>12',
  ),
  row('remote-pairs', 'three cells', 'r1c1:12 r1c5:12 r6c5:12'),
  row('remote-pairs', 'another digit on the way', 'r1c1:12 r1c5:12 r6c5:13 r6c9:12'),
  row(
    'remote-pairs',
    'five cells, and the outer ones are alike',
    'r1c1:12 r1c5:12 r6c5:12 r6c9:12 r9c9:12 r1c9<>1 r1c9<>2 r6c1<>1 r6c1<>2 r9c5<>1 r9c5<>2',
  ),

  row(
    'x-chain',
    'three houses, and the two of them that do by themselves',
    '1@r1:r1c1,r1c4 1@c5:r2c5,r8c5 1@c6:r4c6,r9c6',
    '1@r1 1@c5: r8c1<>1',
    '1@r1 1@c5 1@c6: r4c1<>1',
  ),
  row('x-chain', 'a gap', '1@r1:r1c1,r1c4 1@c5:r4c5,r8c5'),
  row('x-chain', 'a third place', '1@r1:r1c1,r1c4 1@c5:r2c5,r6c5,r8c5'),

  row('xy-chain', 'four cells', 'r1c1:12 r1c5:23 r6c5:34 r6c9:14', 'r1c1 r1c5 r6c5 r6c9: r1c9<>1 r6c1<>1'),
  row('xy-chain', 'the outer cells share no digit', 'r1c1:12 r1c5:23 r6c5:34 r6c9:45'),
  row('xy-chain', 'a gap', 'r1c1:12 r2c5:23 r6c5:34 r6c9:14'),

  row(
    'simple-colouring',
    'a cell that sees both colours',
    '1@r1:r1c1,r1c5 1@c5:r1c5,r7c5 1@b8:r7c5,r9c4',
    '1@r1 1@c5 1@b8: r9c1<>1',
  ),
  row(
    'simple-colouring',
    'a colour twice in a column',
    '1@r1:r1c1,r1c5 1@c5:r1c5,r7c5 1@b8:r7c5,r8c4 1@r8:r8c4,r8c1',
    '1@r1 1@c5 1@b8 1@r8: r1c1<>1 r7c5<>1 r8c1<>1',
  ),
  row('simple-colouring', 'nothing sees both colours', '1@r1:r1c1,r1c5 1@c5:r1c5,r7c5'),
  row('simple-colouring', 'one house alone', '1@r1:r1c1,r1c2'),

  ...chainRows,
];
