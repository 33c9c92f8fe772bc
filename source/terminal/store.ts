import type { App } from './app-state.ts';
import type { Effect, Message } from './messages.ts';
import type { Services } from './services.ts';
import { update } from './update.ts';

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
  readonly #listeners = new Set<() => void>();

  constructor(app: App, services: Services, outside: Outside) {
    this.#app = app;
    this.#services = services;
    this.#outside = outside;
  }

  readonly app = (): App => this.#app;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly send = (message: Message): void => {
    const before = this.#app;
    this.#take(message);
    if (this.#app !== before) for (const listener of this.#listeners) listener();
  };

  #take(message: Message): void {
    const { app, effects } = update(this.#app, message);
    this.#app = app;
    for (const effect of effects) this.#do(effect);
  }

  #do(effect: Effect): void {
    switch (effect.kind) {
      case 'find-hint':
        this.#take({ kind: 'hint-found', ladder: this.#services.findHint(effect.view) });
        break;
      case 'argue': {
        const { view, text } = effect;
        this.#take({ kind: 'argued', text, answer: this.#services.argue(view, text) });
        break;
      }
      case 'ask': {
        const { view, about, text } = effect;
        const answer = this.#services.ask(view, about, text);
        this.#take({ kind: 'answered', text: `${about} ${text}`, answer });
        break;
      }
      case 'is-right':
        this.#take({ kind: 'standing', standing: this.#services.isRight(effect.state) });
        break;
      case 'why-no-hint':
        this.#take({ kind: 'no-hint', standing: this.#services.isRight(effect.state) });
        break;
      case 'copy': {
        const problem = this.#services.copy(effect.text);
        this.#take({ kind: 'copied', what: effect.what, problem });
        break;
      }
      case 'quit':
        this.#outside.quit(effect.code);
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
