import { Worker } from 'node:worker_threads';
import type { Asking } from '../terminal/engine.ts';
import type { News } from '../terminal/services.ts';
import { sayWithin } from './in-time.ts';
import { sayMoreTime } from './think-here.ts';
import type { ThinkTask } from './think-worker.ts';
import { packThought } from './thoughts.ts';

/** Room for what the searches keep. */
const limits = { maxYoungGenerationSizeMb: 8, maxOldGenerationSizeMb: 256 };

/** When somebody who waits is told so, and when a thread is given up that does not end by itself, in milliseconds. */
export interface Patience {
  readonly slowAfter: number;
  readonly endAfter: number;
}

/** The thread ends its thoughts by itself, and has a last look at what is known then. */
const usual = (seconds: number): Patience => ({ slowAfter: 250, endAfter: 1500 * seconds + 2000 });

/**
 * Thinks in a thread beside the workbench, so that the keyboard never waits: about one question at a time. The
 * thread is started at the first question and kept; `stop` ends it in the middle of a thought.
 */
export class Thinker {
  readonly #entry: URL;
  readonly #task: ThinkTask;
  readonly #patience: Patience;
  #worker: Worker | null = null;
  #hear: ((news: News) => void) | null = null;
  #timers: NodeJS.Timeout[] = [];

  /** `entry`: the program of the thread, which answers each Thought by its Heard. */
  constructor(entry: URL, task: ThinkTask, patience = usual(task.seconds)) {
    this.#entry = entry;
    this.#task = task;
    this.#patience = patience;
  }

  /** Has a question thought about; whatever is being thought about is given up for it. */
  readonly think = (asking: Asking, hear: (news: News) => void): void => {
    if (this.#hear) this.stop();
    this.#hear = hear;
    const { slowAfter, endAfter } = this.#patience;
    const tooLong = `No answer ${sayWithin(this.#task.seconds)}. ${sayMoreTime}`;
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
    const worker = new Worker(this.#entry, { resourceLimits: limits, workerData: this.#task });
    worker.on('message', (news: News) => {
      const hear = this.#hear;
      this.#done();
      // A thought that was ended in the middle has left things as they were then: the next one begins anew.
      if (news.kind === 'unanswered') this.close();
      hear?.(news);
    });
    worker.on('error', (error: Error) => this.#lose(`Thinking failed: ${error.message}`));
    worker.on('exit', () => this.#lose('Thinking ended without an answer.'));
    this.#worker = worker;
    return worker;
  }
}
