import type { Command } from './command.ts';
import { config } from './common-flags.ts';
import { shells } from './shells.ts';

/** What tells of the program itself. */
export const keys: Command = {
  name: 'keys',
  summary: 'lists what the workbench can do, with the keys that do it',
  operands: '',
  mostOperands: 0,
  flags: [config],
  examples: [{ line: 'inkling keys', does: 'every action, its keys and what it does' }],
  negative: null,
  notes: [
    'Keys are changed in the settings, inkling/config.toml in XDG_CONFIG_HOME or ~/.config. Below a line ' +
      '[keys] stands one line an action:',
    {
      title: 'Settings',
      rows: [
        ['hint = "f5"', 'another key'],
        ['undo = ["u", "ctrl+u"]', 'several'],
        ['singles = []', 'none'],
      ],
    },
    'A star behind the keys says that they come from the settings. Two actions on one key are refused.',
  ],
  load: () => import('./keys.ts'),
};

export const completion: Command = {
  name: 'completion',
  summary: 'prints what a shell needs to complete commands and flags',
  operands: shells.join('|'),
  mostOperands: 1,
  flags: [],
  examples: [
    {
      line: 'inkling completion bash',
      does: 'goes into ~/.local/share/bash-completion/completions/inkling',
    },
    { line: 'inkling completion zsh', does: 'goes into _inkling in a folder of fpath' },
    { line: 'inkling completion fish', does: 'goes into ~/.config/fish/completions/inkling.fish' },
  ],
  negative: null,
  notes: [],
  load: () => import('./completion.ts'),
};

export const man: Command = {
  name: 'man',
  summary: 'prints the manual page',
  operands: '',
  mostOperands: 0,
  flags: [],
  examples: [{ line: 'inkling man', does: 'goes into a file inkling.1; man ./inkling.1 shows it' }],
  negative: null,
  notes: [],
  load: () => import('./man.ts'),
};
