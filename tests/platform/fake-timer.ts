import type { Timer } from '../../source/platform/key-stream.ts';

/** A clock that stands still until it is told to go on. */
export class FakeTimer implements Timer {
  #now = 0;
  #waiting: { readonly at: number; readonly done: () => void }[] = [];

  readonly after = (ms: number, done: () => void): (() => void) => {
    const entry = { at: this.#now + ms, done };
    this.#waiting.push(entry);
    return () => {
      this.#waiting = this.#waiting.filter((other) => other !== entry);
    };
  };

  readonly settle = (done: () => void): void => {
    this.after(0, done);
  };

  /** Lets time pass, calling what falls due in order. */
  advance(ms: number): void {
    const end = this.#now + ms;
    for (;;) {
      const due = this.#waiting.filter(({ at }) => at <= end).sort((a, b) => a.at - b.at)[0];
      if (!due) break;
      this.#now = due.at;
      this.#waiting = this.#waiting.filter((other) => other !== due);
      due.done();
    }
    this.#now = end;
  }

  get idle(): boolean {
    return this.#waiting.length === 0;
  }
}
