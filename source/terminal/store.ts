import { type App, asKept, hasUnsavedWork } from './app-state.ts';
import type { Asking } from './engine.ts';
import { keepChange } from './keeping.ts';
import type { Effect, Message } from './messages.ts';
import { isOnItsWay } from './saving.ts';
import type { Services } from './services.ts';
import { looseTable, type Table, turnTo } from './table.ts';
import { update } from './update.ts';

/**
 * How long a change is held back for, in milliseconds, so that it is shown and shown as saved at once: most disks
 * need less, and the eye does not notice.
 */
const showsWithin = 12;

/** What the machine does for the workbench. */
export interface Outside {
  /** Ends the workbench with an exit code. */
  readonly quit: (code: 0 | 130) => void;
  readonly suspend: () => void;
  readonly redraw: () => void;
}

/**
 * Keeps the workbench and takes messages one by one, so that many keys in one burst do what the same keys do
 * one at a time. Effects are done as they come; their answers are messages in turn.
 */
export class Store {
  #app: App;
  readonly #services: Services;
  readonly #outside: Outside;
  readonly #table: Table;
  /** What is being thought about. */
  #asked: Asking | null = null;
  /** Ends the wait of a change that is not shown yet. */
  #cancelHold: (() => void) | null = null;
  readonly #listeners = new Set<() => void>();

  constructor(app: App, services: Services, outside: Outside) {
    const { keeper } = services;
    this.#app = asKept(app, keeper);
    this.#services = services;
    this.#outside = outside;
    this.#table = services.table ?? looseTable();
    keeper?.watch((progress) => this.send({ kind: 'saving', ...progress }));
  }

  readonly app = (): App => this.#app;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly send = (message: Message): void => {
    const before = this.#app;
    this.#take(message);
    if (this.#app === before || this.#holds(message, before)) return;
    this.#tell();
  };

  /** Tells everybody that there is something new. */
  #tell(): void {
    this.#cancelHold?.();
    this.#cancelHold = null;
    for (const listener of this.#listeners) listener();
  }

  /**
   * Whether what is new waits until it is saved, a moment at most: changes that a key makes on the sheet do. The
   * status then stays as it is, and is true at any time.
   */
  #holds(message: Message, before: App): boolean {
    const { later } = this.#services;
    const { mode, saving, sheet } = this.#app;
    if (!later || !isOnItsWay(saving)) return false;
    if (message.kind === 'saving') return this.#cancelHold !== null;
    // Where a mode ends or begins, what reads the keys changes with what is shown.
    if (sheet === before.sheet || mode.kind !== 'work' || before.mode.kind !== 'work') return false;
    this.#cancelHold ??= later(showsWithin, () => this.#tell());
    return true;
  }

  #take(message: Message): void {
    const before = this.#app;
    const { app, effects } = keepChange(before, update(before, message), this.#services.keeper);
    const given = this.#asked !== null && app.thinking?.asking !== this.#asked;
    this.#app = app;
    if (given) {
      this.#asked = null;
      this.#services.stop();
    }
    for (const effect of effects) this.#do(effect);
  }

  /** The answer may come before this returns, or much later; by then it may not be wanted any more. */
  #think(asking: Asking): void {
    if (this.#app.thinking?.asking !== asking) return;
    this.#asked = asking;
    this.#services.think(asking, (news) => {
      if (this.#asked !== asking) return;
      if (news.kind !== 'slow') this.#asked = null;
      this.send(news);
    });
  }

  /** What is on its way to the disk gets there first; where it can't, the person is asked. */
  #quit(code: 0 | 130): void {
    const { keeper } = this.#services;
    const isSaved = this.#app.quitAsked || (keeper?.settle?.() ?? true);
    if (!isSaved && hasUnsavedWork(this.#app))
      this.#take({ kind: 'do', name: code === 0 ? 'quit' : 'cancel' });
    else this.#outside.quit(code);
  }

  #do(effect: Effect): void {
    switch (effect.kind) {
      case 'find-hint':
      case 'argue':
      case 'ask':
      case 'is-right':
      case 'why-no-hint':
      case 'how-many-solutions':
        this.#think(effect);
        break;
      case 'copy': {
        const problem = this.#services.copy(effect.text);
        this.#take({ kind: 'copied', what: effect.what, problem });
        break;
      }
      case 'turn': {
        const turn = turnTo(this.#table, effect, this.#app.sheet);
        this.#take({ kind: 'turned', to: effect.to, turn });
        break;
      }
      case 'quit':
        this.#quit(effect.code);
        break;
      case 'suspend':
        this.#outside.suspend();
        break;
      case 'redraw':
        this.#outside.redraw();
        break;
    }
  }
}
