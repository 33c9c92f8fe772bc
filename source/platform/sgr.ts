/**
 * How a cell is drawn, as the terminal's "select graphic rendition" says it (ECMA-48, 8.3.117; ISO 8613-6 for
 * indexed and direct colours). Colours keep the form in which they came: one of the sixteen, an index into
 * the 256, or direct RGB.
 */
export interface Style {
  /** Bits of `attributes`. */
  readonly attributes: number;
  readonly foreground: Colour;
  readonly background: Colour;
}

/** Default -1; the sixteen 0-15; an index 0x100 + n; direct 0x1000000 + RGB. */
export type Colour = number;

/** Attributes as bits. Blinking and concealment are not among them: they are never passed on. */
export const attributes = {
  bold: 1,
  dim: 2,
  italic: 4,
  underline: 8,
  inverse: 16,
  strike: 32,
  overline: 64,
} as const;

const defaultColour: Colour = -1;
const indexed = 0x100;
const direct = 0x1000000;

interface AttributeCodes {
  readonly bit: number;
  readonly on: number;
  readonly off: number;
}

const codes: readonly AttributeCodes[] = [
  { bit: attributes.bold, on: 1, off: 22 },
  { bit: attributes.dim, on: 2, off: 22 },
  { bit: attributes.italic, on: 3, off: 23 },
  { bit: attributes.underline, on: 4, off: 24 },
  { bit: attributes.inverse, on: 7, off: 27 },
  { bit: attributes.strike, on: 9, off: 29 },
  { bit: attributes.overline, on: 53, off: 55 },
];

/** The parameters that choose a colour; `base` is 30 for the foreground, 40 for the background. */
function colourCode(colour: Colour, base: 30 | 40): string {
  if (colour === defaultColour) return String(base + 9);
  if (colour >= direct) {
    return `${base + 8};2;${(colour >> 16) & 255};${(colour >> 8) & 255};${colour & 255}`;
  }
  if (colour >= indexed) return `${base + 8};5;${colour - indexed}`;
  return String(colour < 8 ? base + colour : base + 60 + colour - 8);
}

/** An extended colour at `at` of the parameters: the colour, if it is one, and how many parameters it took. */
function extendedColour(
  numbers: readonly number[],
  at: number,
): { colour: Colour | undefined; length: number } {
  const byte = (index: number) => Math.min(255, numbers[index] ?? 0);
  if (numbers[at + 1] === 5) return { colour: indexed + byte(at + 2), length: 3 };
  if (numbers[at + 1] === 2) {
    return { colour: direct + (byte(at + 2) << 16) + (byte(at + 3) << 8) + byte(at + 4), length: 5 };
  }
  return { colour: undefined, length: 2 };
}

/** One parameter with colons: `4:3`, `38:5:n`, `38:2::r:g:b`. */
function colonParameter(style: Style, parameter: string): Style {
  const fields = parameter.split(':');
  const numbers = fields.map(Number);
  if (numbers[0] === 4) {
    const underline = numbers[1] !== 0;
    const rest = style.attributes & ~attributes.underline;
    return { ...style, attributes: underline ? rest | attributes.underline : rest };
  }
  if (numbers[0] !== 38 && numbers[0] !== 48) return style;
  if (numbers[1] === 2 && fields.length > 5) numbers.splice(2, 1); // the colour space, usually left empty
  const { colour } = extendedColour(numbers, 0);
  if (colour === undefined) return style;
  return numbers[0] === 38 ? { ...style, foreground: colour } : { ...style, background: colour };
}

/** The style after `CSI parameters m` in a style. Unknown parameters change nothing. */
export function applyRendition(style: Style, parameters: string): Style {
  let { attributes: bits, foreground, background } = style;
  const fields = parameters.split(';');
  const numbers = fields.map(Number);
  for (let at = 0; at < fields.length; at++) {
    if (fields[at]!.includes(':')) {
      const next = colonParameter({ attributes: bits, foreground, background }, fields[at]!);
      bits = next.attributes;
      foreground = next.foreground;
      background = next.background;
      continue;
    }
    const number = numbers[at]!;
    if (number === 0) {
      bits = 0;
      foreground = defaultColour;
      background = defaultColour;
    } else if (number === 38 || number === 48) {
      const { colour, length } = extendedColour(numbers, at);
      if (colour !== undefined && number === 38) foreground = colour;
      if (colour !== undefined && number === 48) background = colour;
      at += length - 1;
    } else if (number === 58) at += extendedColour(numbers, at).length - 1;
    else if (number === 39) foreground = defaultColour;
    else if (number === 49) background = defaultColour;
    else if (number >= 30 && number <= 37) foreground = number - 30;
    else if (number >= 40 && number <= 47) background = number - 40;
    else if (number >= 90 && number <= 97) foreground = number - 82;
    else if (number >= 100 && number <= 107) background = number - 92;
    else {
      for (let i = 0; i < codes.length; i += 1) {
        const { bit, on, off } = codes[i]!;
        if (number === off) bits &= ~bit;
        else if (number === on) bits |= bit;
      }
      if (number === 21) bits |= attributes.underline;
    }
  }
  return { attributes: bits, foreground, background };
}

/** Nothing set: the terminal's own colours. */
export const plainStyle: Style = { attributes: 0, foreground: defaultColour, background: defaultColour };

/** The shortest sequence that leads from one style to another; empty if they are the same. */
export function renditionBetween(from: Style, to: Style): string {
  let kept = from.attributes;
  let offs = '';
  const lost = from.attributes & ~to.attributes;
  for (const { bit, off } of lost === 0 ? [] : codes) {
    if ((kept & lost & bit) === 0) continue;
    offs += `;${off}`;
    for (const other of codes) if (other.off === off) kept &= ~other.bit; // bold and dim share theirs
  }
  const change = offs + setting(kept, from, to);
  // An empty parameter is 0, which takes everything back.
  const anew = setting(0, plainStyle, to);
  if (change.length <= anew.length + 1) return change === '' ? '' : `\x1b[${change.slice(1)}m`;
  return `\x1b[${anew}m`;
}

/** The parameters that set what is missing, each behind a semicolon. */
function setting(set: number, { foreground, background }: Style, to: Style): string {
  let parameters = '';
  const missing = to.attributes & ~set;
  for (let rest = missing, i = 0; rest !== 0; i += 1) {
    const { bit, on } = codes[i]!;
    if (rest & bit) parameters += `;${on}`;
    rest &= ~bit;
  }
  if (to.foreground !== foreground) parameters += `;${colourCode(to.foreground, 30)}`;
  if (to.background !== background) parameters += `;${colourCode(to.background, 40)}`;
  return parameters;
}

/** Attributes that show on a blank. */
const lines = attributes.underline | attributes.inverse | attributes.strike | attributes.overline;

function blankStyle(style: Style): Style {
  if (style.attributes & lines) return style;
  return { ...plainStyle, background: style.background };
}

/**
 * Styles by number, so that cells compare and copy cheaply; number 0 is the plain style. Grows with the
 * distinct styles that a program uses, a few dozen.
 */
export class StyleTable {
  readonly #styles: Style[] = [plainStyle];
  readonly #numbers = new Map<string, number>([[this.#key(plainStyle), 0]]);
  readonly #applied = new Map<string, number>();
  readonly #onBlank: number[] = [];
  readonly #between: string[][] = [];

  /** The number of the style after `CSI parameters m` in the style with this number. */
  apply(style: number, parameters: string): number {
    const key = `${style} ${parameters}`;
    let number = this.#applied.get(key);
    if (number === undefined) {
      number = this.#number(applyRendition(this.#styles[style]!, parameters));
      this.#applied.set(key, number);
    }
    return number;
  }

  /** The style of which a blank in this style shows: no colour of letters where no line is drawn. */
  onBlank(style: number): number {
    let number = this.#onBlank[style];
    if (number === undefined) {
      number = this.#number(blankStyle(this.#styles[style]!));
      this.#onBlank[style] = number;
    }
    return number;
  }

  /** The shortest sequence from one style to another. */
  between(from: number, to: number): string {
    if (from === to) return '';
    this.#between[from] ??= [];
    const known = this.#between[from][to];
    if (known !== undefined) return known;
    const sequence = renditionBetween(this.#styles[from]!, this.#styles[to]!);
    this.#between[from][to] = sequence;
    return sequence;
  }

  #key(style: Style): string {
    return `${style.attributes} ${style.foreground} ${style.background}`;
  }

  #number(style: Style): number {
    const key = this.#key(style);
    let number = this.#numbers.get(key);
    if (number === undefined) {
      number = this.#styles.push(style) - 1;
      this.#numbers.set(key, number);
    }
    return number;
  }
}
