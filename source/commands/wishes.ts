import { type ColourFlag, colourFlags } from '../platform/capabilities.ts';
import {
  colourWanted,
  drawingWanted,
  mouseWanted,
  oneSolutionWanted,
  secondsWanted,
  settingsOf,
} from '../terminal/preferences.ts';
import { type Settings, themeNames } from '../terminal/settings.ts';
import type { Asked } from './command.ts';
import { readPreferences } from './config.ts';
import type { Granted } from './engine-here.ts';
import { gridLimit } from './limits.ts';
import type { Mistake } from './mistake.ts';

/** How somebody wants the workbench: the settings file, and before it the flags. */
export interface Wishes {
  readonly settings: Settings;
  readonly granted: Granted;
  readonly colour: ColourFlag;
  readonly ascii: boolean;
  readonly digits: 'large' | 'plain';
  readonly mouse: boolean;
  /** How long a question may be thought about. */
  readonly seconds: number;
}

/** Reads flags and settings; everything that is wrong with these, each with its place. */
export async function readWishes(
  { flags }: Asked,
  environment: Readonly<Record<string, string | undefined>>,
): Promise<Wishes | readonly Mistake[]> {
  const preferences = await readPreferences(flags.get('config') ?? 'own', environment);
  if (!('bindings' in preferences)) return preferences;
  const settings = settingsOf(preferences);
  const { ascii, digits } = drawingWanted(preferences);
  const colour = colourFlags.find((flag) => flag === flags.get('color')) ?? 'auto';
  return {
    settings: {
      ...settings,
      theme: themeNames.find((name) => name === flags.get('theme')) ?? settings.theme,
      ...(gridLimit.most > 0 && { gridLimit: gridLimit.most }),
    },
    granted: { oneSolution: flags.get('assume') === 'one-solution' || oneSolutionWanted(preferences) },
    colour: colour === 'auto' ? (colourWanted(preferences) ?? colour) : colour,
    ascii: flags.has('ascii') || ascii,
    digits,
    mouse: mouseWanted(preferences),
    seconds: Number(flags.get('seconds') ?? secondsWanted(preferences)),
  };
}
