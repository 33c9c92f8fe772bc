/** How far a line character reaches in each direction: not, light, or heavy. */
export interface LineArms {
  readonly left: 0 | 1 | 2;
  readonly up: 0 | 1 | 2;
  readonly right: 0 | 1 | 2;
  readonly down: 0 | 1 | 2;
}

/**
 * The box drawing characters by their arms, left, up, right, down; 1 light, 2 heavy (Unicode Standard, chart
 * "Box Drawing", U+2500 to U+257F, without the dashed, double and diagonal ones). Rounded corners are drawn
 * as corners.
 */
const arms: Readonly<Record<string, string>> = {
  '1010': '─',
  '2020': '━',
  '0101': '│',
  '0202': '┃',
  '0011': '┌╭',
  '0021': '┍',
  '0012': '┎',
  '0022': '┏',
  '1001': '┐╮',
  '2001': '┑',
  '1002': '┒',
  '2002': '┓',
  '0110': '└╰',
  '0120': '┕',
  '0210': '┖',
  '0220': '┗',
  '1100': '┘╯',
  '2100': '┙',
  '1200': '┚',
  '2200': '┛',
  '0111': '├',
  '0121': '┝',
  '0212': '┠',
  '0222': '┣',
  '1101': '┤',
  '2101': '┥',
  '1202': '┨',
  '2202': '┫',
  '1011': '┬',
  '2021': '┯',
  '1012': '┰',
  '2022': '┳',
  '1110': '┴',
  '2120': '┷',
  '1210': '┸',
  '2220': '┻',
  '1111': '┼',
  '2121': '┿',
  '1212': '╂',
  '2222': '╋',
  '1000': '╴',
  '0100': '╵',
  '0010': '╶',
  '0001': '╷',
  '2000': '╸',
  '0200': '╹',
  '0020': '╺',
  '0002': '╻',
  '1020': '╼',
  '0102': '╽',
  '2010': '╾',
  '0201': '╿',
};

const byCharacter = new Map<string, LineArms>();
for (const [key, characters] of Object.entries(arms)) {
  const [left, up, right, down] = Array.from(key, Number) as (0 | 1 | 2)[];
  for (const character of characters) {
    byCharacter.set(character, { left: left!, up: up!, right: right!, down: down! });
  }
}

/** The arms of a line character; undefined for any other. */
export const lineArms = (character: string): LineArms | undefined => byCharacter.get(character);

/** A block character as a part of its cell: left, top, width and height, each 0 to 1; undefined for others. */
export function blockOf(character: string): readonly [number, number, number, number] | undefined {
  const code = character.codePointAt(0)!;
  if (code === 0x2580) return [0, 0, 1, 0.5];
  if (code === 0x2590) return [0.5, 0, 0.5, 1];
  if (code > 0x2580 && code <= 0x2588) {
    const height = (code - 0x2580) / 8;
    return [0, 1 - height, 1, height];
  }
  return code > 0x2588 && code < 0x2590 ? [0, 0, (0x2590 - code) / 8, 1] : undefined;
}
