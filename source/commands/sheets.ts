import { join } from 'node:path';
import { findGridForm, gridForms, writeGrid } from '../grid/write.ts';
import type { Kept } from '../journal/journal.ts';
import { makeBody, makeSnapshot } from '../journal/journal.ts';
import { JournalFile } from '../platform/journal-file.ts';
import { SheetLock, systemProcesses } from '../platform/sheet-lock.ts';
import { listSheets, removeSheet, type ShelvedSheet } from '../platform/sheet-shelf.ts';
import { type Files, reasonOf, systemFiles } from '../platform/storage.ts';
import { gridOf } from '../sheet/copy.ts';
import { placedAt } from '../sheet/marks.ts';
import { safeText } from '../text/safe.ts';
import { padWidth } from '../text/width.ts';
import type { Run, Surroundings } from './command.ts';
import { complain } from './complain.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { systemLater } from './kept-sheet.ts';
import type { Mistake } from './mistake.ts';
import { findFolder, readSheet, tooNew } from './resume.ts';

const files: Files = systemFiles;

/** A sheet of the shelf with what its journal holds; `problem`: why that can't be read, or where it ends early. */
interface Shown {
  readonly shelved: ShelvedSheet;
  readonly kept: Kept | null;
  readonly problem: string | null;
}

function look(shelved: ShelvedSheet): Shown {
  try {
    const found = readSheet(files, shelved.folder);
    if (!found) return { shelved, kept: null, problem: 'it is gone' };
    if ('kept' in found) return { shelved, kept: found.kept, problem: found.kept.damage?.message ?? null };
    const { error } = found;
    const problem = error.code === 'newer' ? tooNew('', error).message : error.message;
    return { shelved, kept: null, problem };
  } catch (error) {
    return { shelved, kept: null, problem: reasonOf(error) };
  }
}

const isHeld = ({ folder }: ShelvedSheet): boolean => {
  try {
    return SheetLock.isHeld(files, folder, systemProcesses);
  } catch {
    return false;
  }
};

const nameOf = ({ kept }: Shown): string => kept?.name.trim() || 'a grid';

/** What is told of a sheet in a list. */
function tell(shown: Shown) {
  const { shelved, kept, problem } = shown;
  const state = kept?.timeline.state;
  const placed = state ? state.givens.filter((_, cell) => placedAt(state, cell) !== 0).length : null;
  return {
    id: shelved.id,
    name: nameOf(shown),
    placed,
    open: state && placed !== null ? state.layout.cellCount - placed : null,
    moves: kept?.timeline.moves ?? null,
    used: new Date(shelved.used).toISOString(),
    held: isHeld(shelved),
    problem,
  };
}

async function list(all: readonly Shown[], asJson: boolean, { results }: Surroundings): Promise<ExitCode> {
  const told = all.map(tell);
  if (asJson) {
    await results.line(JSON.stringify({ schema: 1, action: 'list', sheets: told }));
    return exitCodes.yes;
  }
  if (told.length === 0) await results.line('No sheet is kept yet. inkling GRID begins one.');
  const names = told.map(({ name }) => safeText(name, { lineLimit: 40 }));
  const widest = Math.max(0, ...names.map((name) => name.length));
  for (const [index, { id, placed, open, moves, used, held, problem }] of told.entries()) {
    const state =
      placed === null
        ? 'unreadable'
        : `${placed} placed, ${open} open, ${moves} ${moves === 1 ? 'move' : 'moves'}`;
    const time = `${used.slice(0, 10)} ${used.slice(11, 16)}Z`;
    const extra = [held ? 'open now' : '', problem === null ? '' : safeText(problem)].filter((t) => t !== '');
    const line = `${padWidth(names[index], widest)}  ${state.padEnd(34)}  ${time}  ${id}`;
    await results.line([line, ...extra].join('  '));
  }
  return exitCodes.yes;
}

/** The sheet that a word means: by its id, or by its name where only one has it. */
function choose(all: readonly Shown[], word: string): Shown | Mistake {
  const byId = all.find(({ shelved }) => shelved.id === word);
  if (byId) return byId;
  const named = all.filter((shown) => nameOf(shown) === word || safeText(nameOf(shown)) === word);
  if (named.length === 1) return named[0];
  if (named.length === 0) {
    return { message: `there is no sheet '${word}'`, next: "'inkling sheets' lists them, each with its id" };
  }
  const ids = named.map(({ shelved }) => shelved.id).join(', ');
  return { message: `${named.length} sheets are called '${word}'`, next: `give the id of one: ${ids}` };
}

async function refuse(mistake: Mistake, surroundings: Surroundings): Promise<ExitCode> {
  await complain(mistake, surroundings);
  return exitCodes.no;
}

/** Does something with a sheet that nobody else may write on meanwhile. */
async function alone(
  { shelved: { folder } }: Shown,
  surroundings: Surroundings,
  act: (lock: SheetLock) => void,
): Promise<ExitCode> {
  try {
    const lock = SheetLock.take(files, folder, systemProcesses);
    if ('held' in lock) {
      const who = lock.holder === null ? '' : ` (process ${lock.holder.pid})`;
      return await refuse(
        { message: `the sheet is open elsewhere${who}`, next: 'quit inkling there first' },
        surroundings,
      );
    }
    act(lock);
    return exitCodes.yes;
  } catch (error) {
    return complain({ place: folder, message: reasonOf(error) }, surroundings);
  }
}

/** Writes a name behind a sheet's other records. */
function writeName(folder: string, kept: Kept, size: number, name: string, lock: SheetLock): void {
  const file = new JournalFile({
    files,
    folder,
    lock,
    lockFolder: () => lock,
    found: { tail: kept.tail, length: kept.length, size },
    snapshot: () => makeSnapshot(kept.timeline, name),
    later: systemLater,
    tell: () => {},
  });
  file.append([makeBody({ kind: 'name', name })]);
  file.close();
}

const done = async (
  json: object,
  said: string,
  asJson: boolean,
  { results }: Surroundings,
): Promise<void> => {
  await results.line(asJson ? JSON.stringify(json) : said);
};

/** Lists, names, exports and removes sheets. */
export const run: Run = async ({ operands, flags }, surroundings): Promise<ExitCode> => {
  const asJson = flags.has('json');
  const folder = findFolder(surroundings);
  if (folder === null) {
    return complain(
      { message: 'there is no place for sheets: neither XDG_STATE_HOME nor HOME is an absolute path' },
      surroundings,
    );
  }
  let all: Shown[];
  try {
    all = listSheets(files, folder).map(look);
  } catch (error) {
    return complain({ place: folder, message: `the sheets can't be read: ${reasonOf(error)}` }, surroundings);
  }
  const [action, word, name] = operands;
  if (action === undefined) return list(all, asJson, surroundings);
  if (!['name', 'export', 'remove'].includes(action)) {
    const next = "it does 'name', 'export' and 'remove'; alone it lists";
    return complain({ message: `'inkling sheets' does not know '${action}'`, next }, surroundings);
  }
  const wanted = action === 'name' ? 3 : 2;
  if (operands.length !== wanted || word === undefined) {
    const form = action === 'name' ? 'SHEET NAME' : 'SHEET';
    const next = `inkling sheets ${action} ${form}`;
    return complain({ message: `'inkling sheets ${action}' takes ${form}`, next }, surroundings);
  }
  const chosen = choose(all, word);
  if ('message' in chosen) return complain(chosen, surroundings);
  const { id } = chosen.shelved;
  const called = safeText(nameOf(chosen));
  switch (action) {
    case 'remove': {
      const code = await alone(chosen, surroundings, () => removeSheet(files, chosen.shelved.folder));
      const json = { schema: 1, action, id, name: nameOf(chosen) };
      if (code === exitCodes.yes) await done(json, `Removed ${called}.`, asJson, surroundings);
      return code;
    }
    case 'name': {
      const given = (name ?? '').trim();
      if (given === '' || [...given].length > 200) {
        return complain({ message: 'a name has 1 to 200 signs' }, surroundings);
      }
      let problem: string | null = chosen.problem;
      const code = await alone(chosen, surroundings, (lock) => {
        // What was read before the lock was ours may have changed meanwhile.
        const found = readSheet(files, chosen.shelved.folder);
        if (found && 'kept' in found && !found.kept.damage) {
          problem = null;
          writeName(chosen.shelved.folder, found.kept, found.size, given, lock);
        } else lock.release();
      });
      if (code !== exitCodes.yes) return code;
      if (problem !== null) {
        const place = join(chosen.shelved.folder, 'journal');
        return refuse({ place, message: problem.replace(/\.$/, '') }, surroundings);
      }
      const json = { schema: 1, action, id, name: given };
      await done(json, `${called} is called ${safeText(given)} now.`, asJson, surroundings);
      return exitCodes.yes;
    }
    default: {
      const { kept, problem } = chosen;
      const place = join(chosen.shelved.folder, 'journal');
      if (!kept) return refuse({ place, message: (problem ?? '').replace(/\.$/, '') }, surroundings);
      const form = findGridForm(flags.get('to') ?? '') ?? gridForms[0];
      const grid = gridOf(kept.timeline.state, form.carriesMarks ? 'candidates' : 'none');
      const text = writeGrid(
        form,
        grid,
        [safeText(kept.name.trim())].filter((remark) => remark !== ''),
      );
      const json = { schema: 1, action: 'export', id, name: nameOf(chosen), form: form.name, text };
      await done(json, text.replace(/\n$/, ''), asJson, surroundings);
      if (problem === null) return exitCodes.yes;
      return refuse({ place, message: problem.replace(/\.$/, '') }, surroundings);
    }
  }
};
