import { Worker } from 'node:worker_threads';
import type { BlockPart, Tally } from './answer-inputs.ts';
import type { LineBlock } from './input.ts';

/** What a worker thread is sent: lines, and where it may write what it prints for them. */
export interface BlockRequest {
  readonly block: LineBlock;
  readonly room: SharedArrayBuffer;
}

/** Lines as they are printed, the last line end too: from one byte of the room to another; or as in BlockPart. */
export type WrittenPart = { readonly from: number; readonly to: number } | BlockPart;

/** What a worker thread sends back for each block, in the order in which it got them. */
export interface BlockReply {
  readonly parts: readonly WrittenPart[];
  readonly tally: Tally;
}

/** The answers to a block. `room` is free for another block once they are printed. */
export interface BlockAnswer extends BlockReply {
  readonly room: SharedArrayBuffer;
}

/**
 * What a thread makes of a block is garbage as soon as it is sent: with little room for it, memory stays flat.
 * A thread lives on some 10 MB.
 */
const limits = { maxYoungGenerationSizeMb: 4, maxOldGenerationSizeMb: 64 };
/** Holds the answers to a block of usual lines many times over; what finds no room is sent as text. */
const roomBytes = 262_144;

/** A worker thread and who waits for it. */
interface Member {
  readonly worker: Worker;
  readonly waiting: {
    readonly room: SharedArrayBuffer;
    readonly resolve: (answer: BlockAnswer) => void;
    readonly reject: (error: Error) => void;
  }[];
}

/**
 * Worker threads that answer blocks of lines side by side. `entry` is the program of each, `task` what it is
 * told at its start; it answers each BlockRequest with a BlockReply. Ends with `dismiss`. What is printed
 * passes through memory that both sides share and that is used again, so that many blocks take no more than
 * a few.
 */
export class Crew {
  readonly #members: readonly Member[];
  readonly #rooms: SharedArrayBuffer[] = [];

  constructor(entry: URL, task: unknown, size: number) {
    this.#members = Array.from({ length: size }, () => {
      const worker = new Worker(entry, {
        workerData: task,
        resourceLimits: limits,
      });
      const member: Member = { worker, waiting: [] };
      worker.on('message', (reply: BlockReply) => {
        const first = member.waiting.shift();
        first?.resolve({ ...reply, room: first.room });
      });
      const fail = (error: Error) => {
        for (const { reject } of member.waiting.splice(0)) reject(error);
      };
      worker.on('error', fail);
      worker.on('exit', (code) => fail(new Error(`a worker thread ended with code ${code}`)));
      return member;
    });
  }

  /** Gives a block to whoever has fewest. Rejects where the thread fails. */
  answer(block: LineBlock): Promise<BlockAnswer> {
    let idlest = this.#members[0];
    for (const member of this.#members) {
      if (member.waiting.length < idlest.waiting.length) idlest = member;
    }
    const room = this.#rooms.pop() ?? new SharedArrayBuffer(roomBytes);
    return new Promise((resolve, reject) => {
      idlest.waiting.push({ room, resolve, reject });
      idlest.worker.postMessage({ block, room } satisfies BlockRequest);
    });
  }

  /** Takes back the room of answers that have been printed. */
  release({ room }: BlockAnswer): void {
    this.#rooms.push(room);
  }

  /** Ends the threads, done or not. */
  async dismiss(): Promise<void> {
    await Promise.all(this.#members.map(({ worker }) => worker.terminate()));
  }
}
