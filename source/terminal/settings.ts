import type { HouseKind, Layout } from '../grid/layout.ts';
import type { ThemeName } from '../platform/capabilities.ts';
import { defaultKeymap, type Keymap } from './keymap.ts';
import { type Background, makeTheme, type Theme, type ThemeOptions } from './themes.ts';

export const pens = ['ink', 'note', 'spot', 'strike'] as const;
export type Pen = (typeof pens)[number];

/** The kinds of house that spots are made for, in the order in which one key goes through them. */
export const spotHouses = ['box', 'row', 'column'] as const;
export type SpotHouse = HouseKind;

/** The same on a layout, with the kinds that it has more. */
export const spotHousesOn = ({ houses }: Layout): readonly SpotHouse[] => [
  ...spotHouses,
  ...(['diagonal', 'extra'] as const).filter((kind) => houses.some((house) => house.kind === kind)),
];

export { type ThemeName, themeNames } from '../platform/capabilities.ts';

/** How the person wants the workbench. */
export interface Settings {
  readonly keymap: Keymap;
  readonly theme: ThemeName;
  /** The pen to begin with. */
  readonly pen: Pen;
  /** The kind of house that spots are made for, to begin with. */
  readonly spotHouse: SpotHouse;
  /** The most characters that a pasted grid may have; absent: as many as its layout may need. */
  readonly gridLimit?: number;
}

export const defaultSettings: Settings = {
  keymap: defaultKeymap,
  theme: 'auto',
  pen: 'ink',
  spotHouse: 'box',
};

/** What a chosen theme asks of the terminal's colours. `auto` takes the background that the terminal tells of. */
export function themeOptions(name: ThemeName, terminal: ThemeOptions): ThemeOptions {
  switch (name) {
    case 'auto':
      return terminal;
    case 'dark':
    case 'light':
      return { ...terminal, background: name satisfies Background };
    case 'mono':
      return { ...terminal, depth: 'mono' };
  }
}

/** Each theme as the terminal can show it; the same one for the same name. */
export function themesOf(terminal: ThemeOptions): (name: ThemeName) => Theme {
  const made = new Map<ThemeName, Theme>();
  return (name) => {
    const theme = made.get(name) ?? makeTheme(themeOptions(name, terminal));
    made.set(name, theme);
    return theme;
  };
}
