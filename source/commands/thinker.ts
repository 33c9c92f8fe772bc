import { Worker } from 'node:worker_threads';
import type { Asking } from '../terminal/engine.ts';
import type { News } from '../terminal/services.ts';
import type { Granted } from './engine-here.ts';
import { packThought } from './thoughts.ts';

/** Room for what the searches keep. */
const limits = { maxYoungGenerationSizeMb: 8, maxOldGenerationSizeMb: 256 };

/** When somebody who waits is told so, and when the thread is given up, in milliseconds. */
export interface Patience {
  readonly slowAfter: number;
  readonly endAfter: number;
}

const usual: Patience = { slowAfter: 250, endAfter: 20_000 };

/**
 * Thinks in a thread beside the workbench, so that the keyboard never waits: about one question at a time. The
 * thread is started at the first question and kept; `stop` ends it in the middle of a thought.
 */
export class Thinker {
  readonly #entry: URL;
  readonly #granted: Granted;
  readonly #patience: Patience;
  #worker: Worker | null = null;
  #hear: ((news: News) => void) | null = null;
  #timers: NodeJS.Timeout[] = [];

  /** `entry`: the program of the thread, which answers each Thought by its Heard. */
  constructor(entry: URL, granted: Granted, patience = usual) {
    this.#entry = entry;
    this.#granted = granted;
    this.#patience = patience;
  }

  /** Has a question thought about; whatever is being thought about is given up for it. */
  readonly think = (asking: Asking, hear: (news: News) => void): void => {
    if (this.#hear) this.stop();
    this.#hear = hear;
    const { slowAfter, endAfter } = this.#patience;
    const seconds = Math.round(endAfter / 1000);
    const tooLong = `No answer in ${seconds} seconds. It can be asked again.`;
    this.#timers = [
      setTimeout(() => this.#hear?.({ kind: 'slow' }), slowAfter),
      setTimeout(() => this.#lose(tooLong), endAfter),
    ];
    this.#thread().postMessage(packThought(asking));
  };

  /** Gives up what is being thought about: nobody hears of it again. A thread without work is kept. */
  readonly stop = (): void => {
    if (this.#hear === null) return;
    this.#done();
    this.close();
  };

  /** Ends the thread. */
  close(): void {
    this.#done();
    const worker = this.#worker;
    this.#worker = null;
    worker?.removeAllListeners();
    // What fails while it ends is of no interest any more.
    worker?.on('error', () => undefined);
    void worker?.terminate();
  }

  #done(): void {
    this.#hear = null;
    for (const timer of this.#timers.splice(0)) clearTimeout(timer);
  }

  #lose(why: string): void {
    const hear = this.#hear;
    this.close();
    hear?.({ kind: 'unanswered', why });
  }

  #thread(): Worker {
    if (this.#worker !== null) return this.#worker;
    const worker = new Worker(this.#entry, { resourceLimits: limits, workerData: this.#granted });
    worker.on('message', (news: News) => {
      const hear = this.#hear;
      this.#done();
      hear?.(news);
    });
    worker.on('error', (error: Error) => this.#lose(`Thinking failed: ${error.message}`));
    worker.on('exit', () => this.#lose('Thinking ended without an answer.'));
    this.#worker = worker;
    return worker;
  }
}
