/** Digits drawn with lines, three characters wide and three lines high: heavy for givens, light for ink. */
const heavy = [
  '╺┓  ╺━┓ ╺━┓ ╻ ╻ ┏━╸ ┏━╸ ╺━┓ ┏━┓ ┏━┓',
  ' ┃  ┏━┛ ╺━┫ ┗━┫ ┗━┓ ┣━┓   ┃ ┣━┫ ┗━┫',
  '╺┻╸ ┗━╸ ╺━┛   ╹ ╺━┛ ┗━┛   ╹ ┗━┛ ╺━┛',
];
const light = [
  '╶┐  ╶─┐ ╶─┐ ╷ ╷ ┌─╴ ┌─╴ ╶─┐ ┌─┐ ┌─┐',
  ' │  ┌─┘ ╶─┤ └─┤ └─┐ ├─┐   │ ├─┤ └─┤',
  '╶┴╴ └─╴ ╶─┘   ╵ ╶─┘ └─┘   ╵ └─┘ ╶─┘',
];

/** The three lines of a digit from 1 to 9, each three characters. */
export const largeDigit = (digit: number, kind: 'given' | 'ink'): readonly string[] =>
  (kind === 'given' ? heavy : light).map((line) => line.slice(4 * (digit - 1), 4 * digit - 1).padEnd(3));
