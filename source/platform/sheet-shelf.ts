import { constants } from 'node:fs';
import { join } from 'node:path';
import { codeOf, type Files, reasonOf, StorageError, syncFolder } from './storage.ts';

/** A sheet on the disk. Its folder holds `journal`, the lock, and files that were damaged. */
export interface ShelvedSheet {
  /** The name of its folder, unlike any other's. */
  readonly id: string;
  readonly folder: string;
  /** When it was last opened, written or left: milliseconds since 1970. */
  readonly used: number;
}

const isId = (name: string): boolean => /^[0-9a-f]{12}(?:-[1-9]\d{0,5})?$/.test(name);

/** The most bytes of a journal that are read. */
export const journalLimit = 256_000_000;

const laterOf = (files: Files, path: string, time: number): number =>
  Math.max(time, files.lstatSync(path).mtimeMs);

/**
 * The sheets in a folder, the one that was used last first. Symbolic links, and what is no sheet's folder, are
 * passed over; so is a sheet without a journal. None where there is no such folder; throws where it can't be read.
 */
export function listSheets(files: Files, folder: string): ShelvedSheet[] {
  let ids: string[];
  try {
    if (files.lstatSync(folder).isSymbolicLink()) throw new StorageError('symbolic link', folder);
    ids = files.readdirSync(folder).filter(isId);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return [];
    throw error;
  }
  const sheets = ids.flatMap((id): ShelvedSheet[] => {
    const path = join(folder, id);
    try {
      if (!files.lstatSync(path).isDirectory()) return [];
      const names = files.readdirSync(path);
      if (!names.includes('journal')) return [];
      const dated = names.filter((name) => name === 'journal' || name.startsWith('lock.'));
      return [{ id, folder: path, used: dated.reduce((t, name) => laterOf(files, join(path, name), t), 0) }];
    } catch {
      // Removed or made unreadable a moment ago.
      return [];
    }
  });
  return sheets.sort((a, b) => b.used - a.used || (a.id < b.id ? -1 : 1));
}

/** An id that no sheet in the folder has: the key, or the key with the lowest number behind it that is free. */
export function freeId(files: Files, folder: string, key: string): string {
  let taken: string[] = [];
  try {
    taken = files.readdirSync(folder);
  } catch {
    // Nothing is there yet.
  }
  for (let number = 1; ; number += 1) {
    const id = number === 1 ? key : `${key}-${number}`;
    if (!taken.includes(id)) return id;
  }
}

/**
 * Gives the journal in a sheet's folder a second name under which it stays when another takes its place;
 * answers with that path. Never over a file that is there. Throws where it can't be done.
 */
export function keepAside(files: Files, folder: string): string {
  for (let number = 1; ; number += 1) {
    const path = join(folder, `journal.damaged-${number}`);
    try {
      try {
        files.linkSync(join(folder, 'journal'), path);
      } catch (error) {
        // Not every file system has second names; a copy does as well.
        if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'].includes(codeOf(error))) throw error;
        files.copyFileSync(join(folder, 'journal'), path, constants.COPYFILE_EXCL);
      }
      syncFolder(files, folder);
      return path;
    } catch (error) {
      if (codeOf(error) !== 'EEXIST') throw error;
    }
  }
}

/** Removes a sheet: the files that belong to one, and then its folder. Nothing behind a symbolic link. Throws. */
export function removeSheet(files: Files, folder: string): void {
  if (!files.lstatSync(folder).isDirectory()) throw new StorageError('no folder there', folder);
  const names = files.readdirSync(folder);
  const own = names.filter((name) => /^(?:journal(?:\.damaged-\d+)?|lock\.\d+|\.new-[0-9a-f]+)$/.test(name));
  // The journal first: without it the rest is no sheet any more.
  for (const name of own.sort()) files.unlinkSync(join(folder, name));
  try {
    files.rmdirSync(folder);
  } catch (error) {
    throw new StorageError(
      codeOf(error) === 'ENOTEMPTY' ? 'other files are in the folder, and stay' : reasonOf(error),
      folder,
    );
  }
}
