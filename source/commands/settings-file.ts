import { parse, TomlError } from 'smol-toml';
import type { Action, ActionName } from '../terminal/actions.ts';
import { parseChord } from '../terminal/chords.ts';
import { actionNamed, actionTable, conflictsOf, makeKeymap } from '../terminal/keymap.ts';
import { nearestWord } from '../terminal/nearest-word.ts';
import {
  type Preferences,
  type SettingName,
  type SettingValue,
  settingNamed,
  settingTable,
} from '../terminal/preferences.ts';
import { quoteSafe, safeText } from '../text/safe.ts';

/** What is wrong in a settings file, and where; lines and columns from 1. */
export interface SettingsProblem {
  readonly line: number;
  readonly column: number;
  /** A sentence without a full stop, safe to show. */
  readonly message: string;
  /** What to do about it. */
  readonly next: string;
}

/** More than anybody writes by hand. */
export const settingsLimit = 100_000;

type Place = Pick<SettingsProblem, 'line' | 'column'>;

/** Where each key of the file stands, by its table and name: `keys.hint`. Only keys that begin a line. */
function placesIn(text: string): (path: string) => Place {
  const places = new Map<string, Place>();
  let table = '';
  text.split(/\r\n|\n|\r/).forEach((line, index) => {
    const header = /^\s*\[\s*([\w-]+)\s*\]/.exec(line)?.[1];
    if (header !== undefined) table = `${header}.`;
    if (header !== undefined) places.set(header, { line: index + 1, column: line.indexOf('[') + 1 });
    const key = /^(\s*)(?:"([^"]*)"|'([^']*)'|([\w-]+(?:\.[\w-]+)*))\s*=/.exec(line);
    if (!key) return;
    const path = table + (key[2] ?? key[3] ?? key[4]);
    if (!places.has(path)) places.set(path, { line: index + 1, column: [...key[1]].length + 1 });
  });
  return (path) => places.get(path) ?? places.get(path.split('.')[0]) ?? { line: 1, column: 1 };
}

const isTable = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && !(value instanceof Date);

/**
 * Reads a settings file: TOML 1.0, the settings of `settingTable` and a table `keys`. Answers what it wants, or
 * everything that is wrong with it, in the order of the file. Never throws.
 */
export function readSettings(text: string): Preferences | readonly SettingsProblem[] {
  if (text.length > settingsLimit) {
    return [{ line: 1, column: 1, message: 'the file is too long', next: 'settings take a few lines' }];
  }
  let read: Readonly<Record<string, unknown>>;
  try {
    read = parse(text);
  } catch (error) {
    if (!(error instanceof TomlError)) throw error;
    const [, why] = /^(?:Invalid TOML document: )?([^\n]*)/.exec(error.message) ?? [];
    const message = `this is not TOML: ${safeText(why ?? '')}`;
    return [{ line: error.line, column: error.column, message, next: 'a line is: name = "value"' }];
  }
  const placeOf = placesIn(text);
  const problems: SettingsProblem[] = [];
  const complain = (path: string, message: string, next: string) =>
    problems.push({ ...placeOf(path), message, next });

  const values = new Map<SettingName, SettingValue>();
  for (const [name, value] of Object.entries(read)) {
    if (name === 'keys') continue;
    const setting = settingNamed(name);
    if (!setting) {
      const names = [...settingTable.map((each) => each.name), 'keys'];
      const near = nearestWord(name, names);
      const known = `the settings are: ${names.join(', ')}`;
      complain(
        name,
        `there is no setting ${quoteSafe(name, 24)}`,
        near === null ? known : `did you mean ${near}?`,
      );
      continue;
    }
    const allowed: readonly SettingValue[] = setting.values;
    const isPlain = typeof value === 'string' || typeof value === 'boolean' || typeof value === 'number';
    if (isPlain && allowed.includes(value)) {
      values.set(setting.name, value);
      continue;
    }
    const said = isTable(value) ? 'a table' : Array.isArray(value) ? 'a list' : `${value}`;
    const shown = typeof value === 'string' ? quoteSafe(value, 24) : said;
    const list = allowed.map((each) => (typeof each === 'string' ? `"${each}"` : `${each}`)).join(', ');
    complain(name, `${setting.name} cannot be ${safeText(shown)}`, `it is one of: ${list}`);
  }
  const bindings = readBindings(read.keys, complain);
  for (const { key, first, second } of conflictsOf(bindings)) {
    // The line to change is one of the file's; of two such the later one.
    const own = [first, second].filter((name) => bindings.has(name));
    const at = own.sort((a, b) => placeOf(`keys.${b}`).line - placeOf(`keys.${a}`).line)[0];
    const other = at === first ? second : first;
    complain(
      `keys.${at}`,
      `${key} would do two things: ${at} and ${other}`,
      bindings.has(other)
        ? 'give one of them another key'
        : `give ${other} another key: ${other} = "..." or []`,
    );
  }
  const { keysOf } = makeKeymap(bindings);
  if (['quit', 'cancel', 'type'].every((name) => keysOf(name as ActionName).length === 0)) {
    complain('keys', 'no key would be left to quit with', 'leave quit, cancel or type a key');
  }
  if (problems.length > 0) return problems.sort((a, b) => a.line - b.line || a.column - b.column);
  return { values, bindings };
}

/** Why an action cannot have a key that is one, in a sentence without a full stop; null where it can. */
function whyNot({ name, keys, modes }: Action, chord: string): string | null {
  const own: readonly string[] = keys;
  const takesDigits = own.includes('1-9');
  if (takesDigits && !own.includes(chord)) return `${name} takes digits, so its keys are ${own.join(', ')}`;
  if (!takesDigits && chord === '1-9') return `${name} takes no digits`;
  // Where lines are typed, a key that types a sign must type it.
  const isSign = [...chord].length === 1 || chord === 'space';
  return isSign && (modes.includes('typed') || modes.includes('palette'))
    ? `${chord} types itself where ${name} counts`
    : null;
}

/** The keys of the table `keys`; what cannot be one is complained about. */
function readBindings(
  table: unknown,
  complain: (path: string, message: string, next: string) => void,
): ReadonlyMap<ActionName, readonly string[]> {
  const bindings = new Map<ActionName, readonly string[]>();
  if (table === undefined) return bindings;
  if (!isTable(table)) {
    complain('keys', 'keys is a table', 'begin it with a line: [keys]');
    return bindings;
  }
  for (const [name, value] of Object.entries(table)) {
    const path = `keys.${name}`;
    const action = actionNamed(name);
    if (!action) {
      const near = nearestWord(
        name,
        actionTable.map((each) => each.name),
      );
      complain(
        path,
        `no action is called ${quoteSafe(name, 24)}`,
        near === null ? "'inkling keys' lists the actions" : `did you mean ${near}?`,
      );
      continue;
    }
    const written: readonly unknown[] = Array.isArray(value) ? value : [value];
    const chords: string[] = [];
    for (const each of written) {
      if (typeof each !== 'string' || each === '') {
        complain(
          path,
          `the keys of ${name} are texts`,
          `for instance: ${name} = "f5", or ["f5", "ctrl+t"], or []`,
        );
        continue;
      }
      const chord = parseChord(each);
      const problem = 'problem' in chord ? chord.problem : whyNot(action, chord.chord);
      if (problem !== null) complain(path, problem, `'inkling keys' shows how keys are written`);
      else if ('problem' in chord) continue;
      else if (!chords.includes(chord.chord)) chords.push(chord.chord);
    }
    bindings.set(action.name, chords);
  }
  return bindings;
}
