import type { App } from './app-state.ts';
import { say } from './saying.ts';
import { type ThemeName, themeNames } from './settings.ts';

/** The workbench in another theme. */
export const withTheme = (app: App, theme: ThemeName): App =>
  say({ ...app, settings: { ...app.settings, theme } }, `Theme: ${theme}.`);

/** The workbench in the theme that comes after its own, round again. */
export function nextTheme(app: App): App {
  const at = themeNames.indexOf(app.settings.theme);
  return withTheme(app, themeNames[(at + 1) % themeNames.length]);
}
