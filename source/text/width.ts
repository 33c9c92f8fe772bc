/**
 * Code points that take two columns: East Asian Wide and Fullwidth (Unicode Standard Annex 11), which takes
 * in emoji shown as pictures. Blocks are taken whole where only unassigned code points would differ.
 */
const wideRanges = (): readonly (readonly [number, number])[] => [
  [0x1100, 0x115f],
  [0x231a, 0x231b],
  [0x2329, 0x232a],
  [0x23e9, 0x23ec],
  [0x23f0, 0x23f0],
  [0x23f3, 0x23f3],
  [0x25fd, 0x25fe],
  [0x2614, 0x2615],
  [0x2630, 0x2637],
  [0x2648, 0x2653],
  [0x267f, 0x267f],
  [0x268a, 0x268f],
  [0x2693, 0x2693],
  [0x26a1, 0x26a1],
  [0x26aa, 0x26ab],
  [0x26bd, 0x26be],
  [0x26c4, 0x26c5],
  [0x26ce, 0x26ce],
  [0x26d4, 0x26d4],
  [0x26ea, 0x26ea],
  [0x26f2, 0x26f3],
  [0x26f5, 0x26f5],
  [0x26fa, 0x26fa],
  [0x26fd, 0x26fd],
  [0x2705, 0x2705],
  [0x270a, 0x270b],
  [0x2728, 0x2728],
  [0x274c, 0x274c],
  [0x274e, 0x274e],
  [0x2753, 0x2755],
  [0x2757, 0x2757],
  [0x2795, 0x2797],
  [0x27b0, 0x27b0],
  [0x27bf, 0x27bf],
  [0x2b1b, 0x2b1c],
  [0x2b50, 0x2b50],
  [0x2b55, 0x2b55],
  [0x2e80, 0x303e],
  [0x3041, 0xa4cf],
  [0xa960, 0xa97c],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe10, 0xfe19],
  [0xfe30, 0xfe6f],
  [0xff01, 0xff60],
  [0xffe0, 0xffe6],
  [0x16fe0, 0x18dff],
  [0x1aff0, 0x1b2fb],
  [0x1d300, 0x1d376],
  [0x1f004, 0x1f004],
  [0x1f0cf, 0x1f0cf],
  [0x1f18e, 0x1f18e],
  [0x1f191, 0x1f19a],
  [0x1f200, 0x1f320],
  [0x1f32d, 0x1f335],
  [0x1f337, 0x1f37c],
  [0x1f37e, 0x1f393],
  [0x1f3a0, 0x1f3ca],
  [0x1f3cf, 0x1f3d3],
  [0x1f3e0, 0x1f3f0],
  [0x1f3f4, 0x1f3f4],
  [0x1f3f8, 0x1f43e],
  [0x1f440, 0x1f440],
  [0x1f442, 0x1f4fc],
  [0x1f4ff, 0x1f53d],
  [0x1f54b, 0x1f54e],
  [0x1f550, 0x1f567],
  [0x1f57a, 0x1f57a],
  [0x1f595, 0x1f596],
  [0x1f5a4, 0x1f5a4],
  [0x1f5fb, 0x1f64f],
  [0x1f680, 0x1f6c5],
  [0x1f6cc, 0x1f6cc],
  [0x1f6d0, 0x1f6d2],
  [0x1f6d5, 0x1f6d8],
  [0x1f6dc, 0x1f6df],
  [0x1f6eb, 0x1f6ec],
  [0x1f6f4, 0x1f6fc],
  [0x1f7e0, 0x1f7eb],
  [0x1f7f0, 0x1f7f0],
  [0x1f90c, 0x1f93a],
  [0x1f93c, 0x1f945],
  [0x1f947, 0x1f9ff],
  [0x1fa70, 0x1faff],
  [0x20000, 0x3fffd],
];

/** Made when first needed, as the other tables here are: a start does without. */
let wide: readonly (readonly [number, number])[] | undefined;

function isWide(code: number): boolean {
  if (code < 0x1100) return false;
  wide ??= wideRanges();
  let low = 0;
  let high = wide.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (wide[middle][0] <= code) low = middle;
    else high = middle - 1;
  }
  return code <= wide[low][1];
}

/**
 * Whether a text has nothing but signs of one column that join with no other and can be shown as they are: ASCII,
 * Latin, punctuation, arrows, operators, lines and blocks. It needs no look at its graphemes.
 */
export const isSimple = (text: string): boolean =>
  /^[\u0020-\u007e\u00a0-\u00ac\u00ae-\u02ff\u2010-\u2027\u2030-\u205e\u2190-\u22ff\u2500-\u25fc]*$/.test(
    text,
  );

// Classes of Unicode are looked up when the expression is made, so these are made where they are used.
const isWithoutWidth = (sign: string): boolean =>
  /^[\p{Mn}\p{Me}\p{Cc}\p{Cf}\p{Default_Ignorable_Code_Point}\p{Cs}]$/u.test(sign);
const isEmoji = (grapheme: string): boolean =>
  /\p{Emoji}/u.test(grapheme) && /\ufe0f|\u20e3|^[\u{1f1e6}-\u{1f1ff}]{2}/u.test(grapheme);

/** Made when first needed: making it takes longer than all else that a short command does. */
let segmenter: Intl.Segmenter | undefined;
function graphemes(text: string): Intl.Segments {
  segmenter ??= new Intl.Segmenter('en', { granularity: 'grapheme' });
  return segmenter.segment(text);
}

/** The columns of one grapheme: what a reader takes for one sign, marks and all. */
function graphemeWidth(grapheme: string): number {
  if (isEmoji(grapheme) && [...grapheme].length > 1) return 2;
  let width = 0;
  for (const sign of grapheme) {
    if (isWithoutWidth(sign)) continue;
    width = Math.max(width, isWide(sign.codePointAt(0)!) ? 2 : 1);
  }
  return width;
}

/** How many columns of a terminal a text takes. Controls count nothing: make text safe first. */
export function displayWidth(text: string): number {
  if (isSimple(text)) return text.length;
  let width = 0;
  for (const { segment } of graphemes(text)) width += graphemeWidth(segment);
  return width;
}

/**
 * A text cut to at most `columns` columns, never inside a grapheme; what was cut is told by an ellipsis (of
 * one column), which counts.
 */
export function fitWidth(text: string, columns: number, ellipsis = '…'): string {
  if (displayWidth(text) <= columns) return text;
  const room = columns - displayWidth(ellipsis);
  if (room < 0) return '';
  let kept = '';
  let width = 0;
  for (const { segment } of graphemes(text)) {
    width += graphemeWidth(segment);
    if (width > room) break;
    kept += segment;
  }
  return kept + ellipsis;
}

/** A text filled up with spaces to `columns` columns; longer text comes back as it is. */
export const padWidth = (text: string, columns: number): string =>
  text + ' '.repeat(Math.max(0, columns - displayWidth(text)));
