import { changesBetween } from '../journal/changes.ts';
import { makeBody, makeSnapshot } from '../journal/journal.ts';
import type { Timeline } from '../journal/timeline.ts';
import { JournalFile, type JournalFileOptions, type Later, type Progress } from '../platform/journal-file.ts';
import { reasonOf } from '../platform/storage.ts';
import type { Sheet } from '../sheet/state.ts';
import type { Saving, SheetKeeper } from '../terminal/saving.ts';

/** After how many changes what is on the sheet is written down as a whole, so that reading it stays quick. */
const stateEvery = 32;
/** When it is put down that is done after fewer; and not after each, or many short runs would grow the journal. */
const stateAtEnd = 8;

/** Calls back later, without keeping the process alive. */
export const systemLater: Later = (milliseconds, call) => {
  const timer = setTimeout(call, milliseconds).unref();
  return () => clearTimeout(timer);
};

export interface KeptSheetOptions
  extends Pick<JournalFileOptions, 'files' | 'folder' | 'lockFolder' | 'lock' | 'found' | 'later'> {
  readonly timeline: Timeline;
  readonly name: string;
  /** How many changes the journal has behind the last that was written down as a whole. Default none. */
  readonly sinceState?: number;
}

/** A sheet that is kept in a journal of its own, for as long as it is open. */
export class KeptSheet implements SheetKeeper {
  readonly #timeline: Timeline;
  readonly #file: JournalFile;
  #taken = 0;
  #sinceState: number;
  #tell: (progress: Progress) => void = () => {};

  /** Begins to keep it: a sheet that has no journal yet gets one. */
  constructor({ timeline, name, sinceState = 0, ...options }: KeptSheetOptions) {
    this.#timeline = timeline;
    this.#sinceState = sinceState;
    this.#file = new JournalFile({
      ...options,
      snapshot: () => makeSnapshot(timeline, name),
      tell: (progress) => this.#tell(progress),
    });
    // Makes the journal, or finds out what is in the way of writing to it.
    if (!options.found || !options.lock) this.#taken = this.#file.append([]);
  }

  saving(): Saving {
    return { taken: this.#taken, ...this.#file.progress, readOnly: null };
  }

  take(before: Sheet, after: Sheet): number {
    const changes = changesBetween(before, after);
    const last = changes.at(-1);
    for (const change of changes) {
      const isHistory = change.kind === 'undo' || change.kind === 'redo';
      this.#timeline.play(change, !isHistory && change === last ? { after: after.state } : {});
    }
    const bodies = changes.map(makeBody);
    this.#sinceState += changes.length;
    if (this.#sinceState >= stateEvery) bodies.push(this.#stateBody());
    this.#taken = this.#file.append(bodies);
    return this.#taken;
  }

  watch(tell: (progress: Progress) => void): void {
    this.#tell = tell;
  }

  /** Saves what is not saved yet, now; where it can't be saved goes on trying: false. */
  settle(): boolean {
    return this.#file.settle();
  }

  /** Saves what is not saved yet, now, and lets go of the sheet. Where it can't be saved goes on trying: false. */
  leave(): boolean {
    if (this.#sinceState >= stateAtEnd) this.#taken = this.#file.append([this.#stateBody()]);
    return this.#file.leave();
  }

  /** Saves what is not saved yet, now, and lets go of the sheet. Throws where it can't be saved. */
  close(): void {
    if (this.#sinceState >= stateAtEnd) this.#file.append([this.#stateBody()]);
    try {
      this.#file.close();
    } catch (error) {
      throw new Error(`the sheet is not saved: ${reasonOf(error)}`);
    }
  }

  #stateBody(): string {
    this.#sinceState = 0;
    const change = { kind: 'state', state: this.#timeline.state } as const;
    this.#timeline.play(change);
    return makeBody(change);
  }
}

/** The keeper of a sheet that is not kept, and why: another has it open, or there is no place for it. */
export function unkept(why: Pick<Saving, 'problem' | 'readOnly'>): SheetKeeper {
  let taken = 0;
  return {
    saving: () => ({ taken, saved: 0, ...why }),
    take: () => {
      taken += 1;
      return taken;
    },
    watch: () => {},
  };
}
