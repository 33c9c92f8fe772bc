import type { Ground, Role } from './screen.ts';

export type Depth = 'mono' | '16' | '256' | 'true';
export type Background = 'dark' | 'light' | 'unknown';

export interface ThemeOptions {
  readonly depth: Depth;
  /**
   * Unknown: hues of a middling lightness that read on black and on white alike, and no tints. The sixteen
   * colours have none such, so there the monochrome encoding is taken.
   */
  readonly background: Background;
  /** The Linux console: no crossed-out, no italics, no bright backgrounds. The signs say the same. */
  readonly linuxConsole?: boolean;
}

/** How one theme shows roles and grounds. */
export interface Theme {
  readonly depth: Depth;
  /** Whether tiles, cursor and named houses are tinted; otherwise the weave and signs stand for them. */
  readonly tints: boolean;
  /** The parameters of the SGR sequence for a role on a ground; empty for the terminal's own look. */
  readonly sgr: (role: Role, ground: Ground) => string;
}

type Pair<T> = readonly [dark: T, light: T];

/**
 * One look in every encoding. `fore` and `back` are RGB, `fore256` and `back256` palette indices, each for
 * dark and light; `attributes` go with both. `sixteen` (dark, light) and `mono` are SGR parameters.
 */
interface Look {
  readonly fore?: Pair<string>;
  readonly back?: Pair<string>;
  readonly fore256?: Pair<number>;
  readonly back256?: Pair<number>;
  readonly attributes?: string;
  readonly sixteen: Pair<string>;
  readonly mono: string;
}

const both = <T>(value: T): Pair<T> => [value, value];
const chip = (rgb: string, index: number, sixteen: string, mono: string, light = rgb): Look => ({
  fore: both('#000000'),
  back: [rgb, light],
  fore256: both(16),
  back256: both(index),
  sixteen: both(sixteen),
  mono,
});

/** Hues of Okabe and Ito's palette (2008) and gray; darker ones of the same hue on a light background. */
export const looks: Readonly<Record<Role, Look>> = {
  text: { sixteen: both(''), mono: '' },
  strong: { attributes: '1', sixteen: both('1'), mono: '1' },
  dim: { fore: ['#8A8A8A', '#6F6F6F'], fore256: [245, 241], sixteen: both('2'), mono: '2' },
  rule: { fore: ['#626262', '#8F8F8F'], fore256: [241, 245], sixteen: both('2'), mono: '2' },
  label: { fore: ['#8A8A8A', '#6F6F6F'], fore256: [245, 241], sixteen: both('2'), mono: '2' },
  labelCursor: { attributes: '1', sixteen: both('1'), mono: '1' },
  labelHouse: { attributes: '1', sixteen: both('7'), mono: '7' },
  labelSlip: {
    fore: ['#F0743A', '#A84200'],
    fore256: [209, 124],
    attributes: '1',
    sixteen: ['1;91', '1;31'],
    mono: '1;7',
  },
  given: { attributes: '1', sixteen: both('1'), mono: '1' },
  ink: { fore: ['#56B4E9', '#0067A3'], fore256: [74, 25], sixteen: ['96', '34'], mono: '4' },
  inkLarge: { fore: ['#56B4E9', '#0067A3'], fore256: [74, 25], sixteen: ['96', '34'], mono: '' },
  note: { fore: ['#9A9A9A', '#666666'], fore256: [247, 240], sixteen: both('2'), mono: '2' },
  noteWoven: { fore: ['#9A9A9A', '#666666'], fore256: [247, 240], sixteen: both(''), mono: '' },
  spot: { fore: ['#2FBF93', '#00704F'], fore256: [36, 23], sixteen: ['92', '32'], mono: '4' },
  pending: {
    fore: ['#2FBF93', '#00704F'],
    fore256: [36, 23],
    attributes: '3',
    sixteen: ['3;92', '3;32'],
    mono: '4',
  },
  struck: { fore: ['#626262', '#8F8F8F'], fore256: [241, 245], sixteen: both('2'), mono: '2' },
  factA: chip('#E69F00', 214, '30;43', '7'),
  factB: chip('#56B4E9', 74, '30;46', '7'),
  factC: chip('#CC79A7', 175, '30;45', '7'),
  factMore: { attributes: '7', sixteen: both('7'), mono: '7' },
  factAOther: {
    fore: ['#E69F00', '#7D5700'],
    fore256: [214, 58],
    attributes: '4',
    sixteen: both('4;33'),
    mono: '1;4',
  },
  factBOther: {
    fore: ['#56B4E9', '#1A6390'],
    fore256: [74, 24],
    attributes: '4',
    sixteen: both('4;36'),
    mono: '1;4',
  },
  factOther: { attributes: '4', sixteen: both('4'), mono: '1;4' },
  strike: {
    fore: ['#F0743A', '#A84200'],
    fore256: [209, 124],
    attributes: '1;9',
    sixteen: ['1;9;91', '1;9;31'],
    mono: '1;9',
  },
  strikeSign: {
    fore: ['#F0743A', '#A84200'],
    fore256: [209, 124],
    attributes: '1',
    sixteen: ['1;91', '1;31'],
    mono: '1',
  },
  outAlready: { fore: ['#F0743A', '#A84200'], fore256: [209, 124], sixteen: ['91', '31'], mono: '2' },
  placement: chip('#1FB58A', 36, '30;42', '7'),
  overlooked: chip('#F0E442', 227, '30;103', '1;7'),
  slip: {
    fore: ['#F0743A', '#A84200'],
    fore256: [209, 124],
    attributes: '1',
    sixteen: ['1;91', '1;31'],
    mono: '1;7',
  },
  foundPlaced: chip('#F0E442', 227, '30;103', '1;7'),
  foundMark: {
    fore: ['#F0E442', '#000000'],
    back: ['#3D3900', '#F5EB8A'],
    fore256: [227, 16],
    back256: [58, 228],
    sixteen: both('30;43'),
    mono: '7',
  },
  tagFirst: {
    fore: ['#E69F00', '#7D5700'],
    fore256: [214, 58],
    attributes: '1',
    sixteen: ['1;33', '1;33'],
    mono: '1',
  },
  tagSecond: {
    fore: ['#CC79A7', '#97386F'],
    fore256: [175, 89],
    attributes: '1',
    sixteen: ['1;95', '1;35'],
    mono: '1',
  },
  cursorBar: { attributes: '1', sixteen: both('1'), mono: '1' },
  houseSign: { fore: ['#8A8A8A', '#6F6F6F'], fore256: [245, 241], sixteen: both('2'), mono: '2' },
};

export const tints: Readonly<
  Record<Exclude<Ground, 'plain'>, { readonly rgb: Pair<string>; readonly index: Pair<number> }>
> = {
  tile: { rgb: ['#151515', '#F4F4F2'], index: [233, 255] },
  extra: { rgb: ['#201B29', '#EFE9F5'], index: [235, 254] },
  cursor: { rgb: ['#262626', '#E4E4E4'], index: [236, 253] },
  house: { rgb: ['#16283D', '#DCEBFA'], index: [17, 189] },
};

/** A colour in full; of the grays that the 256 colours have too (232 to 255, from 8 in steps of 10) by its number. */
function rgb(kind: '38' | '48', hex: string): string {
  const value = Number.parseInt(hex.slice(1), 16);
  const [red, green, blue] = [value >> 16, (value >> 8) & 255, value & 255];
  const gray = (red - 8) / 10;
  if (red === green && green === blue && Number.isInteger(gray) && gray >= 0 && gray < 24) {
    return `${kind};5;${232 + gray}`;
  }
  return `${kind};2;${red};${green};${blue}`;
}

/** Middling hues: at least 4.5 (256: 4.1) on black and on white. What is not in here takes default colours. */
export const between: Partial<Readonly<Record<Role, { readonly rgb: string; readonly index: number }>>> = {
  dim: { rgb: '#767676', index: 243 },
  rule: { rgb: '#767676', index: 243 },
  label: { rgb: '#767676', index: 243 },
  labelSlip: { rgb: '#CC4C10', index: 130 },
  ink: { rgb: '#177CB4', index: 31 },
  inkLarge: { rgb: '#177CB4', index: 31 },
  note: { rgb: '#767676', index: 243 },
  spot: { rgb: '#218466', index: 29 },
  pending: { rgb: '#218466', index: 29 },
  struck: { rgb: '#767676', index: 243 },
  strike: { rgb: '#CC4C10', index: 130 },
  strikeSign: { rgb: '#CC4C10', index: 130 },
  outAlready: { rgb: '#CC4C10', index: 130 },
  slip: { rgb: '#CC4C10', index: 130 },
  tagFirst: { rgb: '#9D6C00', index: 64 },
  tagSecond: { rgb: '#CE398B', index: 97 },
  houseSign: { rgb: '#767676', index: 243 },
};

/** A role in middling hues. Chips bring their own background and stay as they are. */
function middling(role: Role, depth: '256' | 'true'): string {
  const look = looks[role];
  if (role === 'labelHouse') return look.sixteen[0];
  // A dark tint would fail on white, a pale one on black, and a full chip on every mark shouts.
  if (role === 'foundMark') return '1;4';
  const parts: string[] = look.attributes ? [look.attributes] : [];
  const hue = between[role];
  if (look.back && look.fore && look.back256 && look.fore256) {
    if (depth === 'true') parts.push(rgb('38', look.fore[0]), rgb('48', look.back[0]));
    else parts.push(`38;5;${look.fore256[0]}`, `48;5;${look.back256[0]}`);
  } else if (hue) parts.push(depth === 'true' ? rgb('38', hue.rgb) : `38;5;${hue.index}`);
  return parts.join(';');
}

/** What the Linux console can't show goes; bright backgrounds become plain ones. */
const forConsole = (sgr: string): string =>
  sgr
    .split(';')
    .filter((code) => code !== '9' && code !== '3')
    .map((code) => (/^10\d$/.test(code) ? `4${code[2]}` : code))
    .join(';');

/** What can be seen best where one writes, and takes the fewest codes. */
const plainAtCursor: ReadonlySet<Role> = new Set<Role>(['note', 'noteWoven', 'struck']);
/** There these look as they do without colours, underlined, in the terminal's own colour. */
const underlinedAtCursor: ReadonlySet<Role> = new Set<Role>(['spot', 'pending']);

/**
 * The role that is shown on a ground: grays that would grow too faint on a tint take a stronger one, and those of
 * the cell under the cursor the terminal's own colour.
 */
function onGround(role: Role, ground: Ground): Role {
  if (ground === 'cursor' && plainAtCursor.has(role)) return 'text';
  return role === 'struck' && ground !== 'plain' ? 'label' : role;
}

/** The theme for a terminal. */
export function makeTheme({ depth, background, linuxConsole = false }: ThemeOptions): Theme {
  const rich = depth === 'true' || depth === '256';
  const encoding: Depth = background === 'unknown' && !rich ? 'mono' : depth;
  const side = background === 'light' ? 1 : 0;
  const hasTints = rich && background !== 'unknown';
  const make = (role: Role, ground: Ground): string => {
    if (rich && background === 'unknown') return middling(role, depth);
    const look = looks[hasTints ? onGround(role, ground) : role];
    if (encoding === 'mono') return look.mono;
    if (encoding === '16') return look.sixteen[side];
    const isBare = hasTints && ground === 'cursor' && underlinedAtCursor.has(role);
    const attributes = isBare ? look.mono : look.attributes;
    const parts: string[] = attributes ? [attributes] : [];
    const tint = ground === 'plain' ? null : tints[ground];
    if (encoding === 'true') {
      if (look.fore && !isBare) parts.push(rgb('38', look.fore[side]));
      const back = look.back?.[side] ?? tint?.rgb[side];
      if (back && look.attributes !== '7') parts.push(rgb('48', back));
    } else {
      if (look.fore256 && !isBare) parts.push(`38;5;${look.fore256[side]}`);
      const back = look.back256?.[side] ?? tint?.index[side];
      if (back !== undefined && look.attributes !== '7') parts.push(`48;5;${back}`);
    }
    return parts.join(';');
  };
  const cache = new Map<string, string>();
  return {
    depth: encoding,
    tints: hasTints,
    sgr: (role, ground) => {
      const key = `${role} ${ground}`;
      let sgr = cache.get(key);
      if (sgr === undefined) {
        sgr = linuxConsole ? forConsole(make(role, ground)) : make(role, ground);
        cache.set(key, sgr);
      }
      return sgr;
    },
  };
}
