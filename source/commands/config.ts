import { isAbsolute, join } from 'node:path';
import type { Preferences } from '../terminal/preferences.ts';
import type { Mistake } from './mistake.ts';
import { readAtMost } from './read-at-most.ts';

/**
 * Where the settings are looked for: `inkling/config.toml` in XDG_CONFIG_HOME, by the XDG Base Directory
 * Specification `~/.config` where that is not set, empty or relative. Null where there is no home either.
 */
export function configPath(environment: Readonly<Record<string, string | undefined>>): string | null {
  const { XDG_CONFIG_HOME: config, HOME: home } = environment;
  if (config !== undefined && isAbsolute(config)) return join(config, 'inkling', 'config.toml');
  return home !== undefined && isAbsolute(home) ? join(home, '.config', 'inkling', 'config.toml') : null;
}

const noPreferences: Preferences = { values: new Map(), bindings: new Map() };

/** Of a file that is no settings file at all no more is read. */
const sizeLimit = 400_000;

/**
 * What the settings file wants: the one named, or the one in its place, which may be missing. `none` as its
 * name: no file is read. Answers everything that is wrong with it, each with its place.
 */
export async function readPreferences(
  named: string,
  environment: Readonly<Record<string, string | undefined>>,
): Promise<Preferences | readonly Mistake[]> {
  if (named === 'none') return noPreferences;
  const isNamed = named !== 'own';
  const path = isNamed ? named : configPath(environment);
  if (path === null) return noPreferences;
  let text: string;
  try {
    const read = readAtMost(path, sizeLimit);
    if (read === null) return [{ place: path, message: 'the file is too long for settings' }];
    text = read;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (!isNamed && (code === 'ENOENT' || code === 'ENOTDIR')) return noPreferences;
    const why = code === 'ENOENT' ? 'there is no such file' : `it cannot be read (${code})`;
    return [{ place: path, message: why, next: 'without settings: --config none' }];
  }
  // The reader of the format is loaded only where there is something to read.
  const { readSettings } = await import('./settings-file.ts');
  const read = readSettings(text.replace(/^\ufeff/, ''));
  if ('bindings' in read) return read;
  const lines = text.split(/\r\n|\n|\r/);
  return read.map(({ line, column, message, next }) => ({
    place: `${path}:${line}:${column}`,
    message,
    excerpt: { text: lines[line - 1] ?? '', column },
    next,
  }));
}
