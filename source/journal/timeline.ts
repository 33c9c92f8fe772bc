import { apply } from '../sheet/sheet.ts';
import type { Sheet, SheetEvent, SheetState } from '../sheet/state.ts';
import type { Change } from './changes.ts';

/** A point in the history of a sheet: where an event led to. Its state is worked out when it is first asked for. */
class Moment {
  readonly before: Moment | null;
  /** Null at the beginning. */
  readonly event: SheetEvent | null;
  /** Whether the journal has its state in a record of its own. */
  isWritten = false;
  /** The name of the grid that is on the sheet: opening another one changes it, and nothing else does. */
  readonly name: string;
  #state: SheetState | null;

  constructor(before: Moment | null, event: SheetEvent | null, state: SheetState | null, name: string) {
    this.before = before;
    this.event = event;
    this.#state = state;
    this.name = name;
  }

  get state(): SheetState {
    const trail: Moment[] = [];
    let known: Moment = this;
    while (known.#state === null && known.before !== null) {
      trail.push(known);
      known = known.before;
    }
    let state = known.#state!;
    for (const moment of trail.reverse()) {
      if (moment.event) state = apply(state, moment.event);
      moment.#state = state;
    }
    return state;
  }

  set state(state: SheetState) {
    this.#state = state;
  }
}

/**
 * The history of a sheet as it goes on. Going through a long one does not work out every state on the way:
 * where some are known, from a journal, the others are found when somebody undoes that far.
 */
export class Timeline {
  #now: Moment;
  /** What has been done, and what can be redone, nearest last. */
  readonly #past: Moment[] = [];
  #future: Moment[] = [];

  /** Begins where a sheet stands, as if nothing had been done before. */
  constructor(state: SheetState) {
    this.#now = new Moment(null, null, state, state.name);
  }

  /**
   * Does a change; false, and nothing done, where there are not as many steps to undo or redo, or where the
   * event, with `check`, changes nothing. `after`: the state that an event leads to, where it is known.
   */
  play(
    change: Change,
    { check = false, after }: { readonly check?: boolean; readonly after?: SheetState } = {},
  ): boolean {
    switch (change.kind) {
      case 'undo':
        if (change.steps > this.#past.length) return false;
        for (const moment of this.#past.splice(-change.steps).reverse()) {
          this.#future.push(moment);
          this.#now = moment.before ?? moment;
        }
        return true;
      case 'redo':
        if (change.steps > this.#future.length) return false;
        for (const moment of this.#future.splice(-change.steps).reverse()) {
          this.#past.push(moment);
          this.#now = moment;
        }
        return true;
      case 'name':
        return true;
      case 'state':
        this.#now.state = { ...change.state, name: this.#now.name };
        this.#now.isWritten = true;
        return true;
      default: {
        const name = change.kind === 'open' ? change.name : this.#now.name;
        const moment = new Moment(this.#now, change, after ?? null, name);
        if (check && moment.state === this.#now.state) return false;
        this.#past.push(moment);
        this.#future = [];
        this.#now = moment;
        return true;
      }
    }
  }

  /** The state where it stands now. */
  get state(): SheetState {
    return this.#now.state;
  }

  /** How many moves have been done, and not taken back. */
  get moves(): number {
    return this.#past.length;
  }

  /** The sheet as it stands now. */
  get sheet(): Sheet {
    return {
      state: this.#now.state,
      past: this.#past.map((moment) => ({
        get before() {
          return (moment.before ?? moment).state;
        },
        event: moment.event!,
      })),
      future: this.#future.map((moment) => ({
        get after() {
          return moment.state;
        },
        event: moment.event!,
      })),
    };
  }

  /**
   * The fewest changes that lead from the beginning to here, all that can be undone and redone included, with
   * those states that a journal has already, and the one of now at the end.
   */
  shortest(): Change[] {
    const changes: Change[] = [];
    const add = (moment: Moment) => {
      if (moment.event) changes.push(moment.event);
      if (moment.isWritten && moment !== this.#now) changes.push({ kind: 'state', state: moment.state });
    };
    for (const moment of this.#past) add(moment);
    for (const moment of [...this.#future].reverse()) add(moment);
    if (this.#future.length > 0) changes.push({ kind: 'undo', steps: this.#future.length });
    if (this.#now.event) changes.push({ kind: 'state', state: this.#now.state });
    return changes;
  }

  /** The state that everything began with. */
  get beginning(): SheetState {
    return this.#past[0]?.before?.state ?? this.#now.state;
  }
}
