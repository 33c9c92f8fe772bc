import { EventEmitter } from 'node:events';
import { StringDecoder } from 'node:string_decoder';
import { type KeyEvent, keySequence, type TerminalEvent } from './key-event.ts';
import { KeyParser, type KeyParserOptions } from './key-parser.ts';

/** The clock, as an argument. */
export interface Timer {
  /** Calls `done` once after `ms` milliseconds; the answer cancels it. */
  readonly after: (ms: number, done: () => void) => () => void;
  /** Calls `done` when what is under way (rendering, effects) has had its turn. */
  readonly settle: (done: () => void) => void;
}

/**
 * How many turns of the event loop a key gets for what it sets off. React's scheduler takes a turn for
 * rendering and another for effects, and an effect may ask for a second round; each
 * turn may begin after the one counted here.
 */
const settlingTurns = 6;

/** The process's own clock. */
export const systemTimer: Timer = {
  after: (ms, done) => {
    const timeout = setTimeout(done, ms);
    return () => clearTimeout(timeout);
  },
  settle: (done) => {
    const turn = (left: number): void => {
      setImmediate(() => (left > 1 ? turn(left - 1) : done()));
    };
    turn(settlingTurns);
  },
};

/**
 * What became of an event: `true`, it was dealt with; `'shown'`, the same, and the next event waits until it is
 * on the screen; `false`, it is somebody else's; `'ink'`, it belongs to
 * Ink's `useInput` (a text input), even if that is not on the screen yet; `'ink-text'`, the same, and so do the
 * keys right behind it that type text, which then go there in one piece.
 */
export type Disposition = boolean | 'shown' | 'ink' | 'ink-text';
export type EventHandler = (event: TerminalEvent) => Disposition;

export interface KeyStreamOptions extends KeyParserOptions {
  /** How long the rest of a sequence is waited for; 50, and 100 over SSH (see `capabilities`). */
  readonly escapeWaitMs?: number;
  readonly timer?: Timer;
}

/**
 * How long a key that was given to Ink waits for a component that reads it, before it is dropped. At the start
 * that component waits for Ink itself to be loaded, which takes seconds on a busy machine.
 */
const readerWaitMs = 10_000;
/** After so long a silence within a paste, Ctrl-C or Escape pressed alone ends it. */
const stalledPasteMs = 1000;
/** More than anybody types before the program is ready. */
const queueLimit = 10_000;

/**
 * What Ink gets as its stdin: each `read()` gives one whole key in the form that Ink expects, then null until
 * the next `readable`. It holds the methods that Ink 6.8 calls. Raw mode and the life of the real stream are
 * not Ink's affair, so `setRawMode`, `ref` and `unref` do nothing here.
 */
export class InkInput extends EventEmitter {
  readonly isTTY = true;
  #next: string | null = null;
  readonly #onReader: () => void;

  constructor(onReader: () => void) {
    super();
    this.#onReader = onReader;
    this.on('newListener', (event) => {
      if (event === 'readable') this.#onReader();
    });
  }

  /** Whether a component listens with `useInput`. */
  get isRead(): boolean {
    return this.listenerCount('readable') > 0;
  }

  /** Offers one key; it is gone if nobody reads it at once. */
  offer(sequence: string): void {
    this.#next = sequence;
    this.emit('readable');
    this.#next = null;
  }

  read(): string | null {
    const key = this.#next;
    this.#next = null;
    return key;
  }

  setEncoding(): this {
    return this;
  }

  setRawMode(): this {
    return this;
  }

  ref(): this {
    return this;
  }

  unref(): this {
    return this;
  }
}

/**
 * The keyboard. Bytes go in with `feed`; each key press, paste, mouse or focus report comes out as one typed
 * event, strictly in order, to the handlers and, for text inputs, to Ink.
 *
 * A component subscribes with
 *
 *   useEffect(() => keys.subscribe((event) => { ...; return true; }), [keys]);
 *
 * The newest handler is asked first; the first that does not answer `false` has it. A key that no handler
 * wants goes to Ink if a `useInput` is active, else nowhere. Pastes, mouse, focus and answers of the terminal
 * never go to Ink. While a typed line is open the handler answers `'ink'` for the keys that the line should
 * have. The next event is not handed out before Ink has dealt with such a key, so that `:r4c7=3⏎j` sent in one
 * burst does what the same keys do one by one, though the line is mounted only after `:` and gone after `⏎`.
 * Text that is typed ahead goes to the line in one piece, since Ink draws the screen anew for each.
 * All other events of a burst are handed out at once: keep state in a reducer, not in a component's closure.
 *
 * What arrives before anybody listens is kept.
 */
export class KeyStream {
  /** The stdin for Ink's `render`. */
  readonly ink = new InkInput(() => this.#readerCame());
  readonly #parser: KeyParser;
  readonly #escapeWaitMs: number;
  readonly #timer: Timer;
  /** Made for the first bytes. */
  #decoder: StringDecoder | undefined;
  readonly #handlers: EventHandler[] = [];
  readonly #queue: TerminalEvent[] = [];
  #cancelEscapeWait: (() => void) | undefined;
  #cancelPasteWait: (() => void) | undefined;
  #pasteStalled = false;
  /** A key on its way to Ink; nothing else is handed out until it is done. */
  #inFlight: { readonly sequence: string; readonly cancel: () => void } | undefined;
  #settling = false;
  #delivering = false;
  #ended = false;

  constructor(options: KeyStreamOptions = {}) {
    this.#parser = new KeyParser(options);
    this.#escapeWaitMs = options.escapeWaitMs ?? 50;
    this.#timer = options.timer ?? systemTimer;
  }

  /** Adds a handler; the answer removes it. */
  subscribe(handler: EventHandler): () => void {
    this.#handlers.push(handler);
    if (this.#handlers.length === 1 && this.#queue.length > 0) this.#timer.settle(() => this.#deliver());
    return () => {
      const index = this.#handlers.indexOf(handler);
      if (index >= 0) this.#handlers.splice(index, 1);
    };
  }

  /** Takes bytes from the terminal, in any pieces. */
  feed(bytes: Uint8Array | string): void {
    if (this.#ended) return;
    this.#decoder ??= new StringDecoder('utf8');
    const characters = typeof bytes === 'string' ? bytes : this.#decoder.write(Buffer.from(bytes));
    if (characters === '') return;
    this.#cancelEscapeWait?.();
    this.#cancelEscapeWait = undefined;
    if (this.#pasteStalled && (characters === '\x03' || characters === '\x1b')) {
      this.#enqueue(this.#parser.abandonPaste());
    }
    this.#enqueue(this.#parser.push(characters));
    if (this.#parser.waiting) {
      this.#cancelEscapeWait = this.#timer.after(this.#escapeWaitMs, () => {
        this.#cancelEscapeWait = undefined;
        this.#enqueue(this.#parser.expire());
        this.#deliver();
      });
    }
    this.#watchPaste();
    this.#deliver();
  }

  /** Takes events that are known already, as if they had been typed; for replays and tests. */
  inject(...events: readonly TerminalEvent[]): void {
    this.#enqueue(events);
    this.#deliver();
  }

  /** Stops for good: nothing is handed out any more and no timer runs. */
  end(): void {
    this.#ended = true;
    this.#queue.length = 0;
    this.#cancelEscapeWait?.();
    this.#cancelPasteWait?.();
    this.#inFlight?.cancel();
    this.#inFlight = undefined;
  }

  #watchPaste(): void {
    this.#cancelPasteWait?.();
    this.#cancelPasteWait = undefined;
    this.#pasteStalled = false;
    if (!this.#parser.pasting) return;
    this.#cancelPasteWait = this.#timer.after(stalledPasteMs, () => {
      this.#pasteStalled = true;
    });
  }

  #enqueue(events: readonly TerminalEvent[]): void {
    for (const event of events) if (this.#queue.length < queueLimit) this.#queue.push(event);
  }

  #deliver(): void {
    if (this.#delivering) return;
    this.#delivering = true;
    try {
      while (!this.#ended && this.#queue.length > 0 && !this.#inFlight && !this.#settling) {
        if (this.#handlers.length === 0 && !this.ink.isRead) return;
        const event = this.#queue.shift()!;
        const disposition = this.#ask(event);
        if (disposition === 'shown') this.#settle();
        if (event.kind !== 'key' || disposition === true || disposition === 'shown') continue;
        const isInks = disposition === 'ink' || disposition === 'ink-text';
        if (isInks || this.ink.isRead) this.#giveToInk(event, disposition === 'ink-text');
      }
    } finally {
      this.#delivering = false;
    }
  }

  #ask(event: TerminalEvent): Disposition {
    for (const handler of this.#handlers.toReversed()) {
      const disposition = handler(event);
      if (disposition !== false) return disposition;
    }
    return false;
  }

  /** The text of the keys at the head of the queue, taken off it. */
  #takeText(): string {
    let text = '';
    for (let next = this.#queue[0]; next?.kind === 'key' && next.text !== undefined; next = this.#queue[0]) {
      text += next.text;
      this.#queue.shift();
    }
    return text;
  }

  #giveToInk(key: KeyEvent, withText: boolean): void {
    const first = keySequence(key);
    if (first === undefined) return;
    const sequence = withText ? first + this.#takeText() : first;
    if (this.ink.isRead) {
      this.#offer(sequence);
      return;
    }
    const cancel = this.#timer.after(readerWaitMs, () => {
      this.#inFlight = undefined;
      this.#deliver();
    });
    this.#inFlight = { sequence, cancel };
  }

  #offer(sequence: string): void {
    this.#settling = true;
    this.ink.offer(sequence);
    this.#settle();
  }

  #settle(): void {
    this.#settling = true;
    this.#timer.settle(() => {
      this.#settling = false;
      this.#deliver();
    });
  }

  /** A `useInput` has been mounted; its effects must have run before it can be given a key. */
  #readerCame(): void {
    this.#timer.settle(() => {
      const waiting = this.#inFlight;
      if (!waiting) return this.#deliver();
      if (!this.ink.isRead) return;
      waiting.cancel();
      this.#inFlight = undefined;
      this.#offer(waiting.sequence);
    });
  }
}
