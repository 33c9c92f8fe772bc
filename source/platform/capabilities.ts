/** How many colours a stream can show: none, the sixteen, the 256 palette, 24-bit. */
export type ColourDepth = 'mono' | '16' | '256' | 'true';

/** The environment variables; usually `process.env`. */
export type Environment = Readonly<Record<string, string | undefined>>;

/** What `--color` can be given. A bare `--color` is `always`, `--no-color` is `never`. */
export const colourFlags = ['auto', 'never', 'always', '16', '256', 'true'] as const;
export type ColourFlag = (typeof colourFlags)[number];

/** The looks that can be chosen: by the background that the terminal tells of, for a dark one, a light one, no colours. */
export const themeNames = ['auto', 'dark', 'light', 'mono'] as const;
export type ThemeName = (typeof themeNames)[number];

/** Why the full-screen workbench can't run here. */
export type Obstacle = 'stdin' | 'stdout' | 'dumb' | 'ci';

export interface CapabilityInputs {
  readonly env: Environment;
  readonly flags: {
    readonly color?: ColourFlag | undefined;
    /** `--ascii`: draw with bytes below 0x80 only. */
    readonly ascii?: boolean | undefined;
  };
  /** How many colours terminfo says that a terminal has, by its name; null where it does not know it. */
  readonly terminfo?: ((term: string) => number | null) | undefined;
  readonly isTTY: {
    /** Whether keys can be read from a terminal: fd 0 is one, or data is piped in and /dev/tty opens. */
    readonly keys: boolean;
    readonly stdout: boolean;
    readonly stderr: boolean;
  };
}

export interface Capabilities {
  /** The first thing in the way of the full-screen workbench; undefined if it can run. */
  readonly obstacle: Obstacle | undefined;
  readonly stdoutColour: ColourDepth;
  readonly stderrColour: ColourDepth;
  /** Whether signs beyond ASCII can be drawn. */
  readonly unicode: boolean;
  /** What the terminal says about its background without being asked (`COLORFGBG`). */
  readonly background: 'light' | 'dark' | 'unknown';
  /** How long the rest of an escape sequence is waited for. */
  readonly escapeWaitMs: number;
}

/** Set, and not to nothing, which counts as not set. */
const given = (value: string | undefined): value is string => value !== undefined && value !== '';

const isOff = (value: string): boolean => value === '0' || value === 'false' || value === 'no';

/** Terminals known to show 24-bit colours by their names. */
const directColourTerms =
  /-direct(?:\d|$)|^(?:xterm-)?(?:kitty|ghostty)$|^(?:alacritty|foot|wezterm|contour)(?:-|$)/;
/** Terminals without colours: the real ones of old, and names that say so. */
const monochromeTerms =
  /^(?:vt(?:52|1\d\d|2\d\d|3\d\d|4\d\d|510)|wy\d+|tvi\d+|adm\d+\w*|unknown|network|dialup)(?:-|$)|-m(?:ono)?$/;

/** What most terminals call themselves; none of these names says one or the other, so they need not be looked at. */
const commonTerms: readonly string[] = [
  'xterm-256color',
  'screen-256color',
  'tmux-256color',
  'xterm',
  'linux',
];

type Terminfo = CapabilityInputs['terminfo'];

function depthOf(colours: number): ColourDepth {
  if (colours >= 1 << 24) return 'true';
  if (colours >= 256) return '256';
  return colours >= 8 ? '16' : 'mono';
}

/** What the terminal can show by its name, terminfo and its own word, before anybody's wish. */
function terminalDepth(env: Environment, terminfo: Terminfo): ColourDepth {
  const term = env.TERM ?? '';
  if (term === '' || term === 'dumb') return 'mono';
  if (!commonTerms.includes(term)) {
    if (directColourTerms.test(term)) return 'true';
    if (monochromeTerms.test(term)) return 'mono';
  }
  // GNU screen hands on what its own terminal said, but does not hand on direct colours.
  const screen = term.startsWith('screen') && given(env.STY);
  const claim = env.COLORTERM;
  if (!screen && term !== 'linux' && (claim === 'truecolor' || claim === '24bit')) return 'true';
  const colours = commonTerms.includes(term) ? null : (terminfo?.(term) ?? null);
  if (colours !== null) return depthOf(colours);
  return /256(?:color)?(?:-|$)/.test(term) ? '256' : '16';
}

/** Forced colours are at least the sixteen. */
function forced(env: Environment, terminfo: Terminfo): ColourDepth {
  const depth = terminalDepth(env, terminfo);
  return depth === 'mono' ? '16' : depth;
}

/**
 * How many colours a stream is given. The first of these that says something decides:
 *
 * 1. `--color`: `never`; `16`, `256` or `true`, exactly; `always`, at least 16; `auto` goes on.
 * 2. `NO_COLOR`, not empty: none (no-color.org).
 * 3. `FORCE_COLOR`: `0` or `false`, none; `1`, `2`, `3`: 16, 256, 24-bit; else not empty: at least 16
 *    (force-color.org; the numbers as Node's `getColorDepth` reads them).
 * 4. `CLICOLOR_FORCE`, not empty and not `0`: at least 16 (bixense.com/clicolors).
 * 5. The stream is no terminal: none.
 * 6. `CLICOLOR=0`: none.
 * 7. `TERM` empty or `dumb`, or a terminal known to have no colours: none.
 * 8. 24-bit if `COLORTERM` is `truecolor` or `24bit` or `TERM` is known for it; else what terminfo says of `TERM`,
 *    which is not asked about the commonest names; else 256 if `TERM` says so; else 16.
 */
export function colourDepth(
  env: Environment,
  flag: ColourFlag | undefined,
  isTTY: boolean,
  terminfo?: Terminfo,
): ColourDepth {
  switch (flag) {
    case 'never':
      return 'mono';
    case '16':
    case '256':
    case 'true':
      return flag;
    case 'always':
      return forced(env, terminfo);
    case 'auto':
    case undefined:
      break;
  }
  if (given(env.NO_COLOR)) return 'mono';
  const force = env.FORCE_COLOR;
  if (given(force)) {
    if (isOff(force)) return 'mono';
    return ({ 1: '16', 2: '256', 3: 'true' } as const)[force] ?? forced(env, terminfo);
  }
  if (given(env.CLICOLOR_FORCE) && env.CLICOLOR_FORCE !== '0') return forced(env, terminfo);
  if (!isTTY || env.CLICOLOR === '0') return 'mono';
  return terminalDepth(env, terminfo);
}

/** The locale of characters as POSIX finds it: the first of LC_ALL, LC_CTYPE and LANG that is not empty. */
function isUtf8(env: Environment): boolean {
  const locale = [env.LC_ALL, env.LC_CTYPE, env.LANG].find(given) ?? '';
  return /[uU][tT][fF]-?8/.test(locale) || (locale === '' && given(env.WT_SESSION));
}

/** `COLORFGBG` is `foreground;background`, sometimes with a word between; 7 and 9 to 15 are light. */
function background(env: Environment): Capabilities['background'] {
  const field = env.COLORFGBG?.split(';').at(-1);
  if (field === undefined || !/^\d+$/.test(field)) return 'unknown';
  const index = Number(field);
  return index === 7 || (index >= 9 && index <= 15) ? 'light' : 'dark';
}

function obstacle({ env, isTTY }: CapabilityInputs): Obstacle | undefined {
  if (!isTTY.stdout) return 'stdout';
  if (!isTTY.keys) return 'stdin';
  if (!given(env.TERM) || env.TERM === 'dumb') return 'dumb';
  // An empty CI counts as not set. Continuous integration may lend a job a terminal that nobody sits at.
  return given(env.CI) && !isOff(env.CI) ? 'ci' : undefined;
}

/**
 * What the terminal can do, from the environment, the flags and what the streams are; decided before anything
 * that draws is loaded. Pure.
 */
export function decideCapabilities(inputs: CapabilityInputs): Capabilities {
  const { env, flags, isTTY, terminfo } = inputs;
  return {
    obstacle: obstacle(inputs),
    stdoutColour: colourDepth(env, flags.color, isTTY.stdout, terminfo),
    get stderrColour() {
      return colourDepth(env, flags.color, isTTY.stderr, terminfo);
    },
    unicode: !flags.ascii && isUtf8(env) && env.TERM !== 'linux',
    background: background(env),
    escapeWaitMs: given(env.SSH_CONNECTION) || given(env.SSH_TTY) ? 100 : 50,
  };
}

/** One sentence, for stderr, on what is in the way and what to do instead. The exit code is then 2. */
export function sayObstacle(obstacle: Obstacle): string {
  const instead =
    'Without one: inkling --plain. For the answers alone use a one-shot command, such as: inkling hint GRID';
  switch (obstacle) {
    case 'stdout':
      return `inkling: the workbench needs a terminal, and stdout is none. ${instead}`;
    case 'stdin':
      return `inkling: the workbench needs a keyboard, and there is no terminal to read keys from. ${instead}`;
    case 'dumb':
      return `inkling: the workbench needs a terminal that can move its cursor (TERM is dumb or not set). ${instead}`;
    case 'ci':
      return `inkling: CI is set, so nobody may be sitting at this terminal (CI= opens the workbench). ${instead}`;
  }
}
