import { groups } from '../terminal/action.ts';
import { actionTable, type Keymap, keyWord, sayAction } from '../terminal/keymap.ts';
import { settingsOf } from '../terminal/preferences.ts';
import type { Run } from './command.ts';
import { complain } from './complain.ts';
import { readPreferences } from './config.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';

/** Every action with its name, its keys and what it does, heading by heading, in columns. */
export function keyLines(keymap: Keymap): string[] {
  const rows = groups.flatMap((group) =>
    actionTable
      .filter((action) => action.group === group)
      .map((action) => {
        const { name, modes } = action;
        const keys = keymap.keysOf(name).map(keyWord).join(' ');
        const shown = keys === '' ? 'none' : keys;
        // Where nothing else is open most keys count; of the others it is told where they do.
        const where = modes.includes('work') ? '' : `  (${modes.join(', ')})`;
        return {
          group,
          cells: [name, keymap.isRebound(name) ? `${shown} *` : shown],
          does: sayAction(action) + where,
        };
      }),
  );
  const width = (column: number) => Math.max(...rows.map(({ cells }) => cells[column].length));
  const [names, keys] = [width(0), width(1)];
  return groups.flatMap((group, index) => [
    ...(index === 0 ? [] : ['']),
    group,
    ...rows
      .filter((row) => row.group === group)
      .map(({ cells, does }) => `  ${cells[0].padEnd(names)}  ${cells[1].padEnd(keys)}  ${does}`),
  ]);
}

/** Lists the actions of the workbench with the keys that they have. */
export const run: Run = async ({ flags }, surroundings): Promise<ExitCode> => {
  const { environment, results } = surroundings;
  const preferences = await readPreferences(flags.get('config') ?? 'own', environment);
  if (!('bindings' in preferences)) {
    for (const mistake of preferences) await complain(mistake, surroundings);
    return exitCodes.usage;
  }
  for (const line of keyLines(settingsOf(preferences).keymap)) await results.line(line);
  return exitCodes.yes;
};
