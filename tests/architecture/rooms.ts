/** The rooms of the program and what each may import: the table in DEVELOPERS.md, as data. */
export interface RoomRules {
  /** Rooms it may import values and types from. */
  readonly imports: readonly string[];
  /** Rooms it may import types from, and nothing else. */
  readonly typesOnly: readonly string[];
  /** Packages from the registry; `ink` stands for `ink/...` too. */
  readonly packages: readonly string[];
  /** Whether `node:` modules and the process's own clock, randomness and streams may be used. */
  readonly outside: boolean;
}

const pure = (imports: readonly string[], typesOnly: readonly string[] = []): RoomRules => ({
  imports,
  typesOnly,
  packages: [],
  outside: false,
});

export const rooms: ReadonlyMap<string, RoomRules> = new Map([
  ['text', pure([])],
  ['grid', pure(['text'])],
  ['argument', pure(['grid'])],
  ['exact', pure(['grid'], ['argument'])],
  ['techniques', pure(['grid', 'argument'])],
  ['path', pure(['grid', 'argument', 'exact', 'techniques'])],
  ['hint', pure(['text', 'grid', 'argument', 'techniques', 'path'])],
  ['sheet', pure(['text', 'grid', 'argument', 'exact'])],
  ['journal', pure(['text', 'grid', 'sheet'])],
  ['lesson', pure(['text', 'grid', 'argument', 'path', 'hint', 'sheet'])],
  ['platform', { imports: ['text', 'journal'], typesOnly: [], packages: [], outside: true }],
  [
    'terminal',
    {
      imports: ['text', 'grid', 'argument', 'hint', 'sheet', 'lesson', 'platform'],
      typesOnly: ['path'],
      packages: ['ink', 'react'],
      outside: false,
    },
  ],
  [
    'commands',
    {
      imports: [
        'text',
        'grid',
        'argument',
        'exact',
        'techniques',
        'path',
        'hint',
        'sheet',
        'journal',
        'lesson',
        'platform',
        'terminal',
      ],
      typesOnly: [],
      packages: ['meow', 'fastest-levenshtein', 'smol-toml'],
      outside: true,
    },
  ],
  ['main.ts', { imports: ['commands'], typesOnly: [], packages: [], outside: true }],
]);

/** Names that say nothing about what is in a file. */
export const emptyNames: ReadonlySet<string> = new Set([
  'utils',
  'util',
  'helpers',
  'helper',
  'common',
  'misc',
  'shared',
  'stuff',
  'lib',
  'tools',
]);

export const mostLines = 400;
export const kernelLines = 160;
