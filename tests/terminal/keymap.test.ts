import { describe, expect, test } from 'vitest';
import { type KeyMode, keyModes } from '../../source/terminal/action.ts';
import { type ActionName, actions } from '../../source/terminal/actions.ts';
import { helpGroups } from '../../source/terminal/draw-help.ts';
import {
  actionNamed,
  actionsOf,
  conflictsOf,
  defaultKeymap,
  footerOf,
  keyWord,
  makeKeymap,
  typedNames,
} from '../../source/terminal/keymap.ts';

const { actionFor } = defaultKeymap;
const names: readonly ActionName[] = actions.map(({ name }) => name);

describe('the table of actions', () => {
  test('no name stands twice', () => {
    expect(new Set(names).size).toBe(names.length);
  });

  test.each(keyModes)('in mode %s no key does two things', (mode) => {
    const keys = actionsOf(mode).flatMap((action) => action.keys);
    expect(keys.filter((key, index) => keys.indexOf(key) !== index)).toEqual([]);
  });

  test('every action is documented, and what is told with another has its key named there', () => {
    for (const name of names) {
      const action = actionNamed(name);
      expect(action?.help, name).toMatch(/^[a-zA-Z].+$/);
      expect(action?.help.length, name).toBeLessThanOrEqual(24);
      if (action?.toldWith === undefined) continue;
      const other = actionNamed(action.toldWith);
      expect(other?.helpKeys, `${name} is told with ${action.toldWith}`).toBeDefined();
      const keys = action.keys.map(keyWord);
      expect(
        keys.some((key) => other?.helpKeys?.includes(key)),
        name,
      ).toBe(true);
    }
  });

  test.each(keyModes)('the help of mode %s tells every key that works there', (mode) => {
    const lines = helpGroups(defaultKeymap, mode)
      .flat()
      .filter(({ kind }) => kind === 'action');
    const told = actionsOf(mode).filter(
      (a) => a.keys.length > 0 && !actionsOf(mode).some(({ name }) => name === a.toldWith),
    );
    expect(lines.map(({ text }) => text).toSorted()).toEqual(told.map(({ help }) => help).toSorted());
    for (const { keys } of lines) expect(keys).not.toBe('');
  });

  test('nothing needs Shift, AltGr or a function key, but for the signs that every layout has', () => {
    // Shift with a move picks cells; `,` and the moves themselves do the same.
    const others = actions.filter(({ name }) => !/^pick-(left|right|up|down)$/.test(name));
    const keys = others.flatMap((action): readonly string[] => action.keys);
    const odd = keys.filter((key) => /^[A-Z]$|^f\d+$|alt\+|^[^a-z0-9:;?.,-]$/.test(key));
    expect(odd).toEqual([]);
    expect(actionFor('work', ',')).toBe('pick');
  });

  test('what has no key can be typed', () => {
    for (const action of actions) {
      if (action.keys.length === 0) expect(actionNamed(action.name)?.typed, action.name).toBe(true);
    }
  });

  test('no pen is chosen by the space bar or the lowest row of letters on the left', () => {
    for (const pen of ['ink', 'note', 'spot', 'strike', 'next-pen'] as const) {
      for (const key of actionNamed(pen)?.keys ?? [])
        expect(['space', 'z', 'x', 'c', 'v', 'b']).not.toContain(key);
    }
  });

  test('escape leaves every mode, and Ctrl-C, Ctrl-Z and Ctrl-L work in all', () => {
    for (const mode of keyModes) {
      expect(actionFor(mode, 'escape')).toBe('leave');
      expect(actionFor(mode, 'ctrl+c')).toBe('cancel');
      expect(actionFor(mode, 'ctrl+z')).toBe('suspend');
      expect(actionFor(mode, 'ctrl+l')).toBe('redraw');
      expect(actionFor(mode, 'ctrl+s')).toBeNull();
      expect(actionFor(mode, 'ctrl+q')).toBeNull();
    }
  });

  test('typed names are names, and the contract names are among them', () => {
    expect(typedNames).toEqual(
      expect.arrayContaining(['undo', 'restart', 'fill', 'singles', 'hint', 'quit']),
    );
    for (const name of typedNames) expect(names).toContain(name);
  });
});

describe('the footer', () => {
  const width = (mode: KeyMode, room: number) =>
    footerOf(defaultKeymap, mode, room, () => true)
      .map(({ key, word }) => `${key} ${word}`)
      .join('   ').length;

  test.each([
    ['compact', 77],
    ['without a panel', 54],
    ['tiny', 40],
  ] as const)('fits where the screen is %s', (_, room) => {
    for (const mode of keyModes) expect(width(mode, room), mode).toBeLessThanOrEqual(room);
  });

  test('reads as in the study at 80 columns, and keeps keys and quit when it is short', () => {
    const words = (room: number) =>
      footerOf(defaultKeymap, 'work', room, (name) => name !== 'more').map(
        ({ key, word }) => `${key} ${word}`,
      );
    expect(words(77).join('   ')).toBe(
      '1-9 write   p pen   w hint   : type   f find   u undo   ? keys   q quit',
    );
    expect(words(40)).toEqual(['p pen', 'w hint', '? keys', 'q quit']);
    expect(words(20)).toEqual(['? keys', 'q quit']);
  });

  test('every mode has one, and it leads on or out', () => {
    for (const mode of keyModes)
      expect(footerOf(defaultKeymap, mode, 77, () => true).length, mode).toBeGreaterThan(0);
  });
});

describe("keys of one's own", () => {
  const keymap = makeKeymap(
    new Map<ActionName, readonly string[]>([
      ['hint', ['f5', 'ctrl+h']],
      ['undo', []],
    ]),
  );

  test('do what the action does, in every mode that it is for, and the old ones nothing', () => {
    expect(keymap.actionFor('work', 'f5')).toBe('hint');
    expect(keymap.actionFor('hint', 'ctrl+h')).toBe('hint');
    expect(keymap.actionFor('work', 'w')).toBeNull();
    expect(keymap.actionFor('work', 'u')).toBeNull();
    expect(keymap.actionFor('work', 'r')).toBe('redo');
  });

  test('stand in the footer and the help; what has none is typed', () => {
    const footer = footerOf(keymap, 'work', 200, () => true);
    expect(footer).toContainEqual({ key: 'f5', word: 'hint' });
    expect(footer).toContainEqual({ key: ':undo', word: 'undo' });
    const lines = helpGroups(keymap, 'work').flat();
    expect(lines.find(({ text }) => text === 'where to look, then more')?.keys).toBe('f5 ctrl-h');
    // Undo tells of redo, whose key stays.
    expect(lines.find(({ text }) => text === 'undo, redo')?.keys).toBe('r');
  });

  test('the table has no conflicts, and every conflict is found once, with its key and mode', () => {
    expect(conflictsOf(new Map())).toEqual([]);
    expect(conflictsOf(new Map([['hint', ['u']]]))).toEqual([
      { key: 'u', mode: 'work', first: 'hint', second: 'undo' },
    ]);
    expect(
      conflictsOf(
        new Map([
          ['hint', ['u']],
          ['undo', ['w']],
        ]),
      ),
    ).toEqual([]);
  });
});
