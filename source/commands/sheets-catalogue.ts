import { gridForms } from '../grid/write.ts';
import type { Command } from './command.ts';
import { json } from './common-flags.ts';

/** Lists, names, exports and removes what the workbench keeps. */
export const sheets: Command = {
  name: 'sheets',
  summary: 'lists, names, exports and removes the sheets that are kept',
  operands: '[name SHEET NAME | export SHEET | remove SHEET]',
  mostOperands: 3,
  flags: [
    {
      kind: 'choice',
      name: 'to',
      value: 'FORM',
      summary: 'the form to write',
      choices: gridForms.map(({ name }) => name),
      fallback: gridForms[0].name,
    },
    json,
  ],
  examples: [
    { line: 'inkling sheets', does: 'every sheet, the one that was used last first' },
    { line: "inkling sheets name 3f6a0c91d2e7 'Tuesday'", does: 'gives a sheet a name' },
    { line: 'inkling sheets export Tuesday --to candidates', does: 'prints what is on it' },
    { line: 'inkling sheets remove Tuesday', does: 'removes it for good, its undo history too' },
  ],
  negative: 'the sheet is open elsewhere, or its file is damaged',
  notes: [
    'Each grid that is opened in the workbench has a sheet, and every change is written to it at once. ' +
      'inkling GRID goes on with the sheet of that grid, and so does pasting it; inkling alone with the one that was used last, and ' +
      'inkling --new GRID begins another one.',
    'SHEET is the name of a sheet or the id at the end of its line, whole and exact.',
    'They lie in XDG_STATE_HOME/inkling/sheets, or ~/.local/state/inkling/sheets where that is not set.',
    'Prints {schema, action: list|name|export|remove, ..}: list has sheets: [{id, name, placed, open, moves, ' +
      'used, held, problem}], the others id and name, export also form and text.',
  ],
  load: () => import('./sheets.ts'),
};
