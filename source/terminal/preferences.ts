import { type ColourFlag, colourFlags } from '../platform/capabilities.ts';
import { type Bindings, makeKeymap } from './keymap.ts';
import { defaultSettings, pens, type Settings, spotHouses, themeNames } from './settings.ts';

/** What a setting can be. */
export type SettingValue = string | boolean | number;

/** One setting of the settings file: read, checked and documented from this one object. */
export interface Setting {
  readonly name: string;
  readonly values: readonly SettingValue[];
  /** What holds where it is not set. */
  readonly fallback: SettingValue;
  /** One line, lower case, no full stop. */
  readonly about: string;
}

/** Every setting, in the order in which the docs list them. */
export const settingTable = [
  {
    name: 'theme',
    values: themeNames,
    fallback: 'auto',
    about: 'the colours: as the terminal says of its background, for a dark or a light one, or none',
  },
  {
    name: 'color',
    values: colourFlags,
    fallback: 'auto',
    about: 'how many colours, before NO_COLOR and the like are asked; --color goes first',
  },
  { name: 'ascii', values: [true, false], fallback: false, about: 'whether to draw with ASCII signs alone' },
  {
    name: 'digits',
    values: ['large', 'plain'],
    fallback: 'large',
    about: 'placed digits where there is room',
  },
  { name: 'pen', values: pens, fallback: 'ink', about: 'the pen to begin with' },
  {
    name: 'spot-house',
    values: spotHouses,
    fallback: 'box',
    about: 'the kind of house that spots are made for, to begin with',
  },
  {
    name: 'assume',
    values: ['nothing', 'one-solution'],
    fallback: 'nothing',
    about: 'what arguments may take for granted',
  },
  { name: 'mouse', values: [true, false], fallback: false, about: 'whether a click goes to a cell' },
  {
    name: 'seconds',
    values: [5, 10, 20, 60, 300, 3600],
    fallback: 20,
    about: 'how long a question is thought about; --seconds goes first',
  },
] as const satisfies readonly Setting[];

export type SettingName = (typeof settingTable)[number]['name'];

/** A setting by its name; null if there is none. */
export const settingNamed = (name: string) => settingTable.find((setting) => setting.name === name) ?? null;

/** What a settings file wants: values that have been checked against the table, and keys without conflicts. */
export interface Preferences {
  readonly values: ReadonlyMap<SettingName, SettingValue>;
  readonly bindings: Bindings;
}

/** What is wanted of a setting, where it is one of the given values; else null. */
function wanted<T extends string>({ values }: Preferences, name: SettingName, of: readonly T[]): T | null {
  const value = values.get(name);
  return of.find((each) => each === value) ?? null;
}

/** The workbench's settings with what is wanted in place. */
export function settingsOf(preferences: Preferences): Settings {
  return {
    keymap: preferences.bindings.size === 0 ? defaultSettings.keymap : makeKeymap(preferences.bindings),
    theme: wanted(preferences, 'theme', themeNames) ?? defaultSettings.theme,
    pen: wanted(preferences, 'pen', pens) ?? defaultSettings.pen,
    spotHouse: wanted(preferences, 'spot-house', spotHouses) ?? defaultSettings.spotHouse,
  };
}

/** What is wanted of colours; null where nothing is. */
export const colourWanted = (preferences: Preferences): ColourFlag | null =>
  wanted(preferences, 'color', colourFlags);

/** Whether arguments may build on there being one solution. */
export const oneSolutionWanted = ({ values }: Preferences): boolean =>
  values.get('assume') === 'one-solution';

/** How long a question may be thought about, in seconds. */
export function secondsWanted({ values }: Preferences): number {
  const value = values.get('seconds');
  return typeof value === 'number' ? value : 20;
}

/** Whether the mouse is wanted. */
export const mouseWanted = ({ values }: Preferences): boolean => values.get('mouse') === true;

/** What is wanted of how the screen is drawn. */
export function drawingWanted(preferences: Preferences): { ascii: boolean; digits: 'large' | 'plain' } {
  return {
    ascii: preferences.values.get('ascii') === true,
    digits: wanted(preferences, 'digits', ['large', 'plain']) ?? 'large',
  };
}
