import { describe, expect, test } from 'vitest';
import { readSettings } from '../../source/commands/settings-file.ts';
import { parseChord } from '../../source/terminal/chords.ts';
import { actionTable } from '../../source/terminal/keymap.ts';
import { type Preferences, settingsOf, settingTable } from '../../source/terminal/preferences.ts';

const read = (text: string): Preferences => {
  const settings = readSettings(text);
  if ('bindings' in settings) return settings;
  throw new Error(settings.map(({ message }) => message).join('; '));
};
const problems = (text: string): string[] => {
  const settings = readSettings(text);
  if ('bindings' in settings) return [];
  return settings.map(({ line, column, message, next }) => `${line}:${column}: ${message}: ${next}`);
};

describe('a settings file', () => {
  test('an empty one changes nothing', () => {
    const { values, bindings } = read('# nothing\n');
    expect([values.size, bindings.size]).toEqual([0, 0]);
  });

  test('sets what it names, and binds and unbinds keys', () => {
    const text = [
      'theme = "light"',
      'pen = "note"',
      'spot-house = "column"',
      '',
      '[keys]',
      'hint = "f5"',
      'undo = ["ctrl-u", "ctrl+w"]',
      'singles = []',
    ].join('\n');
    const settings = settingsOf(read(text));
    expect([settings.theme, settings.pen, settings.spotHouse]).toEqual(['light', 'note', 'column']);
    const { keymap } = settings;
    expect(keymap.actionFor('work', 'f5')).toBe('hint');
    expect(keymap.actionFor('work', 'w')).toBeNull();
    expect(keymap.actionFor('work', 'ctrl+w')).toBe('undo');
    expect(keymap.actionFor('work', 'ctrl+u')).toBe('undo');
    expect(keymap.actionFor('work', 'x')).toBeNull();
  });

  test('every setting takes each of its values and nothing else', () => {
    for (const { name, values, fallback } of settingTable) {
      expect(values, name).toContain(fallback);
      for (const value of values) {
        expect(read(`${name} = ${JSON.stringify(value)}`).values.get(name)).toBe(value);
      }
      expect(problems(`${name} = 7`), name).toHaveLength(1);
      expect(problems(`${name} = "nothing of the kind"`), name).toHaveLength(1);
    }
  });

  test('every action can be given a key of its own, but for those that digits do, and be left without one', () => {
    for (const { name, keys } of actionTable) {
      const takesDigits = (keys as readonly string[]).includes('1-9');
      if (takesDigits) expect(problems(`keys.${name} = "f12"`)[0], name).toContain('takes digits');
      else expect(read(`keys.${name} = "ctrl+alt+f12"`).bindings.get(name)).toEqual(['ctrl+alt+f12']);
      expect(read(`[keys]\n${name} = []`).bindings.get(name)).toEqual([]);
    }
  });

  test('a sign that is typed into lines cannot leave them', () => {
    for (const name of ['leave', 'cancel', 'submit', 'run', 'redraw']) {
      expect(problems(`keys.${name} = "x"`)[0], name).toContain(`x types itself where ${name} counts`);
    }
    expect(problems('keys.hint = "1-9"')[0]).toContain('hint takes no digits');
  });

  test.each([
    ['them = "dark"', ['1:1: there is no setting "them": did you mean theme?']],
    ['\n  theme = "black"', ['2:3: theme cannot be "black": it is one of: "auto", "dark", "light", "mono"']],
    ['[keys]\nhnit = "f5"', ['2:1: no action is called "hnit": did you mean hint?']],
    [
      '[keys]\nhint = "f13"',
      ['2:1: "f13" is no key; did you mean f1?: \'inkling keys\' shows how keys are written'],
    ],
    [
      '[keys]\nhint = "u"',
      ['2:1: u would do two things: hint and undo: give undo another key: undo = "..." or []'],
    ],
    [
      '[keys]\nfill = "f5"\nhint = "f5"',
      ['3:1: f5 would do two things: hint and fill: give one of them another key'],
    ],
    ['keys = "u"', ['1:1: keys is a table: begin it with a line: [keys]']],
    [
      '[keys]\nhint = 5',
      ['2:1: the keys of hint are texts: for instance: hint = "f5", or ["f5", "ctrl+t"], or []'],
    ],
    [
      '[keys]\nquit = []\ncancel = []\ntype = []',
      ['1:1: no key would be left to quit with: leave quit, cancel or type a key'],
    ],
  ])('%j is told of with its place and what to do', (text, wanted) => {
    expect(problems(text)).toEqual(wanted);
  });

  test('what is no TOML is told of where it stops being some', () => {
    expect(problems('theme = "dark"\npen = \n')).toEqual([
      '2:7: this is not TOML: invalid value: a line is: name = "value"',
    ]);
  });

  test('all that is wrong is told at once, in the order of the file', () => {
    const found = problems('theme = 1\n[keys]\nhnit = "x"\nfill = "ctrl+i"\n');
    expect(found.map((problem) => problem.split(':', 1)[0])).toEqual(['1', '3', '4']);
  });

  test('two keys that change places are no conflict', () => {
    expect(problems('[keys]\nhint = "u"\nundo = "w"')).toEqual([]);
  });

  test('nothing makes it throw, and nothing of the file comes back as an escape', () => {
    const odd = [
      '\u001b[31m = 1',
      '"\\u001b" = "x"',
      '[keys]\n"\\u001b[2J" = "x"',
      'keys = [1]',
      '[[keys]]',
      'theme = 1979-05-27',
    ];
    for (const text of odd) {
      for (const problem of problems(text)) expect(problem).toMatch(/^[^\u0000-\u001f\u007f]*$/);
    }
  });
});

describe('a key as it is written', () => {
  test.each([
    ['u', 'u'],
    ['U', 'U'],
    ['?', '?'],
    [' ', 'space'],
    ['-', '-'],
    ['+', '+'],
    ['Enter', 'return'],
    ['esc', 'escape'],
    ['pgdn', 'pagedown'],
    ['ctrl-p', 'ctrl+p'],
    ['Ctrl+P', 'ctrl+p'],
    ['alt+ctrl+x', 'ctrl+alt+x'],
    ['ctrl+-', 'ctrl+-'],
    ['shift-tab', 'shift+tab'],
    ['1-9', '1-9'],
    ['0', '0'],
  ])('%j is %s', (text, chord) => {
    expect(parseChord(text)).toEqual({ chord });
  });

  test.each(['', '5', 'ctrl+i', 'ctrl+m', 'ctrl+[', 'ctrl+s', 'shift+a', 'uu', 'hyper+x', 'ctrl+'])(
    '%j is none, and why is said',
    (text) => {
      expect(parseChord(text)).toHaveProperty('problem');
    },
  );
});
